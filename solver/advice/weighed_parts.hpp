// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "solver/advice/ties.hpp"
#include "solver/optimum/work.hpp"

#include <map>
#include <optional>
#include <utility>
#include <vector>

namespace gatherwright::advice {

/// Parts of a job in cloth of other weights. All joins of a knot ask for the same plans, each to see how it fares
/// itself: so each is made once.
class WeighedParts {
public:
  /// Whether a join of a knot, at a place in the knot's part, is then within limits. False too where the work, into
  /// which what is done is counted, is spent.
  bool is_within(int knot, const PartOfJob &part, JoinId place, Weight weight, optimum::Work &work);

private:
  using Key = std::pair<int, double>; ///< knot, grams

  std::map<Key, std::vector<Verdict>> verdicts_; ///< of the joins at their places; none where there is no plan
};

} // namespace gatherwright::advice
