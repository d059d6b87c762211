// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/problem.hpp"
#include "solver/optimum/work.hpp"

#include <vector>

namespace gatherwright::optimum {

/// Rows of level 0 that stand or fall together.
struct Condition {
  std::vector<int> equal;
  std::vector<int> at_least;
};

/// A conflict: conditions that cannot all hold.
struct Conflict {
  std::vector<int> conditions; ///< indices, ascending
  bool irreducible = true;     ///< any one may be dropped for the rest to hold; false: that was too much work to find
  /// How far the set is from holding: the bound that the last of them would have to give way by, all others kept; 0 if
  /// not known.
  double apart = 0;
};

/// A deletion filter: conditions are dropped one by one, the last first, wherever the rest still conflicts, so that the
/// earliest stay. Rows of level 0 that belong to no condition are always kept. The problem's level 0 must be in
/// conflict.
///
/// What a contradiction has no use for can go without a look: only its own conditions are tried, and where the rest
/// still conflicts, the new contradiction takes over. `known`: multipliers of a contradiction of the whole. What is
/// done is counted into `work`; where that is spent, the conditions of the contradiction at hand are the conflict.
Conflict irreducible_conflict(const Problem &problem, const std::vector<Condition> &conditions,
                              const Multipliers *known = nullptr, Work *work = nullptr);

} // namespace gatherwright::optimum
