// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "optimum/problem.hpp"

#include <vector>

namespace gatherwright::optimum {

/// Rows of level 0 that stand or fall together.
struct Condition {
  std::vector<int> equal;
  std::vector<int> at_least;
};

/// An irreducible conflict: of conditions that cannot all hold, a set of which any one may be dropped for the rest to
/// hold.
struct Conflict {
  std::vector<int> conditions; ///< indices, ascending
  /// How far the set is from holding: the bound that the last of them would have to give way by, all others kept; 0 if
  /// not known.
  double apart = 0;
};

/// A deletion filter: conditions are dropped one by one, the last first, wherever the rest still conflicts, so that the
/// earliest stay. Rows of level 0 that belong to no condition are always kept. The problem's level 0 must be in
/// conflict.
Conflict irreducible_conflict(const Problem &problem, const std::vector<Condition> &conditions);

} // namespace gatherwright::optimum
