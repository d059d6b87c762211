// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/problem.hpp"

#include <array>
#include <vector>

namespace gatherwright::optimum {

/// Scales a problem's unknowns, the rows of its level 0, and each later level as a whole, by powers of two, so that
/// what is in other units stands beside the rest. Nothing is rounded by it, and the answer is the same problem's.
class Scaling {
public:
  /// Whether the numbers in its rows are so far apart (2^16) that a problem is better scaled. If so, `scaled` and
  /// `unscale` are for this problem.
  bool helps(const Problem &problem);

  /// After `helps`: whether, unknowns scaled, the rows of some level still weigh so differently (2^12) that their
  /// squares cannot stand in one sum of double precision.
  bool weighs_too_differently() const { return weighs_too_differently_; }

  /// Finds scales for a problem that need not be scaled.
  void find(const Problem &problem);

  Problem scaled(const Problem &problem) const;

  /// Turns a solution of the scaled problem into one of the problem.
  void unscale(Solution &solution) const;

private:
  using Exponents = std::vector<int>;

  void scale_rows(const Problem &problem);
  void scale_columns(const Problem &problem);
  bool columns_are_far_apart() const;
  bool rows_weigh_too_differently(const Problem &problem) const;
  void unscale(Multipliers &multipliers, int level_exponent) const;

  Exponents column_;                         ///< x = 2^column x'
  Exponents equal_, at_least_;               ///< rows are multiplied by 2^these
  std::array<int, wish_levels + 1> level_{}; ///< the limits' and the wishes'
  bool weighs_too_differently_ = false;
};

} // namespace gatherwright::optimum
