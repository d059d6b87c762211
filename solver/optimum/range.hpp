// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "optimum/active_set.hpp"
#include "optimum/problem.hpp"
#include "optimum/reduction.hpp"

#include <optional>

namespace gatherwright::optimum {

/// The values one unknown can take while level 0 holds: an interval, an end without bound left out, or nothing at all.
struct Range {
  bool empty = false;
  std::optional<double> low;
  std::optional<double> high;
};

/// Finds ranges. Keeps its room between calls.
///
/// Each end is a linear program, solved by proximal moves: a step against the slope from where the point is, brought
/// back to what holds; for a linear program the point comes to rest after finitely many (Rockafellar, SIAM J. Control
/// Optim. 14 (1976)). An end is without bound where a move goes the whole way and nothing along it ever gets in the
/// way.
class Ranges {
public:
  /// `unknown` is shared or in a block; levels above 0 are not looked at.
  Range range(const Problem &problem, int unknown);

private:
  enum class End { at_rest, without_bound, not_found };

  void prepare(const Problem &problem);
  End go(double direction);
  bool never_stopped() const;

  Reduction reduction_;
  ReducedRows rows_;
  ReducedRows target_;
  Constraints constraints_;
  ArrowFactor factor_;
  ActiveSet active_set_;
  std::vector<double> centre_, step_;
  double magnitude_ = 1;
  double end_ = 0; ///< of the unknown, over where the reduction's point has it
};

} // namespace gatherwright::optimum
