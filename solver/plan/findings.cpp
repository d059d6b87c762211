// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/findings.hpp"

#include "solver/plan/segments.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright {

namespace {

/// A rule holds within this share of the sum of the absolute values of its terms.
constexpr double rule_share = 1e-9;

Finding finding_of(const Join &made, const JoinPlan &plan, int s) {
  const SegmentPlan &segment = plan.segments[s];
  Finding found;
  found.level = segment.verdict;
  found.segment = s;
  found.measured = segment.fullness;
  switch (segment.verdict) {
  case Verdict::too_scant:
    found.kind = Finding::Kind::too_scant;
    found.limit = segment.limits.least;
    return found;
  case Verdict::too_full:
    found.kind = made.segments[s].kind == Kind::ease ? Finding::Kind::ease_too_full : Finding::Kind::too_full;
    found.limit = segment.limits.most;
    return found;
  default:
    break;
  }
  if (segment.fullness > 1) {
    found.kind = Finding::Kind::past_packed;
    found.limit = segment.limits.packed;
    return found;
  }
  found.kind = Finding::Kind::less_than_band;
  found.measured = segment.long_length;
  found.limit = segment.band;
  return found;
}

} // namespace

bool holds(Relation relation, double left, double right, double size) {
  const double allowed = rule_share * size;
  switch (relation) {
  case Relation::at_most:
    return left <= right + allowed;
  case Relation::at_least:
    return left >= right - allowed;
  case Relation::equal:
    break;
  }
  return std::abs(left - right) <= allowed;
}

std::vector<Finding> findings_of(int join, const Join &made, const JoinPlan &plan) {
  std::vector<Finding> findings;
  for (int s = 0; s < static_cast<int>(plan.segments.size()); ++s) {
    if (plan.segments[s].verdict == Verdict::within_limits) continue;
    findings.push_back(finding_of(made, plan, s));
    findings.back().join = join;
  }
  return findings;
}

} // namespace gatherwright
