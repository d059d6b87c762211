// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/weighed_parts.hpp"

#include "solver/advice/change.hpp"

namespace gatherwright::advice {

bool WeighedParts::is_within(int knot, const PartOfJob &part, JoinId place, Weight weight, optimum::Work &work) {
  const Key key{knot, weight.grams};
  auto known = verdicts_.find(key);
  if (known == verdicts_.end()) {
    const std::optional<Plan> again =
        planned_again(with_weight(part.job, weight), part.edges, work, part.limits_missed);
    if (work.spent()) return false;
    known = verdicts_.emplace(key, std::vector<Verdict>()).first;
    if (again && again->verdict != Verdict::rules_conflict)
      for (const JoinPlan &join : again->joins)
        known->second.push_back(join.verdict);
  }
  return !known->second.empty() && known->second[place.at] == Verdict::within_limits;
}

} // namespace gatherwright::advice
