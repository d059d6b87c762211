// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/active_set.hpp"
#include "solver/optimum/proximal_descent.hpp"
#include "solver/optimum/reduction.hpp"

#include <span>
#include <vector>

namespace gatherwright::optimum {

/// Finds the unknowns that can still move within all that is held. Drawn towards a place far away in some direction,
/// and in the opposite one, the point stays where it is only if that direction is closed; so all of them are tried
/// together, along a direction that is orthogonal to nothing in particular, then those that stayed one by one, each
/// along its own.
class LooseUnknowns {
public:
  /// Marks those that can move, of as many unknowns as `loose` is long. False: it was too much work.
  bool find(const Reduction &reduction, const Constraints &constraints, double magnitude, ProximalDescent &descent,
            std::vector<char> &loose);

private:
  enum class Found { something, all_closed, too_much_work };

  Found draw_all(const Reduction &reduction, const Constraints &constraints, double magnitude, ProximalDescent &descent,
                 std::vector<char> &loose);
  void mark(const Reduction &reduction, std::span<const double> point, double magnitude, std::vector<char> &loose);

  std::vector<double> towards_, moved_; ///< room to work in
};

} // namespace gatherwright::optimum
