// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/findings.hpp"

#include "solver/plan/segments.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright {

namespace {

/// A rule holds within this share of the sum of the absolute values of its terms.
constexpr double rule_share = 1e-9;

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

std::optional<Finding> finding_of(SegmentAt at, const SegmentPlan &segment) {
  using Limit = finding::PastLimit::Limit;
  const auto past = [&](Limit limit, double allowed) {
    return finding::PastLimit{.at = at, .limit = limit, .fullness = segment.fullness, .allowed = allowed};
  };
  if (segment.verdict == Verdict::within_limits) return std::nullopt;
  if (segment.verdict == Verdict::too_scant) return past(Limit::least, segment.limits.least);
  if (segment.verdict == Verdict::too_full) return past(Limit::most, segment.limits.most);
  if (segment.fullness > 1) return past(Limit::packed, segment.limits.packed);
  return finding::LessThanBand{.at = at, .long_length = segment.long_length, .band = segment.band};
}

namespace {

Verdict level(const finding::PastLimit &past) {
  switch (past.limit) {
  case finding::PastLimit::Limit::least:
    return Verdict::too_scant;
  case finding::PastLimit::Limit::most:
    return Verdict::too_full;
  case finding::PastLimit::Limit::packed:
    break;
  }
  return Verdict::cannot_be_gathered;
}

Verdict level(const finding::LessThanBand &) {
  return Verdict::cannot_be_gathered;
}

Verdict level(const finding::RuleBroken &) {
  return Verdict::rule_broken;
}

Verdict level(const finding::TooWide &) {
  return Verdict::rule_broken;
}

Verdict level(const finding::PastTheEnd &) {
  return Verdict::rule_broken;
}

Verdict level(const finding::Overlaps &) {
  return Verdict::rule_broken;
}

Verdict level(const finding::OverStock &) {
  return Verdict::rule_broken;
}

} // namespace

Verdict level_of(const Finding &finding) {
  return std::visit([](const auto &of) { return level(of); }, finding);
}

} // namespace gatherwright
