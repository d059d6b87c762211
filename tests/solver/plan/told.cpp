// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/draft.hpp"

#include <catch2/catch.hpp>

#include <string>

using namespace gatherwright;
using namespace gatherwright::tests;

namespace {

/// One join of `length` into 22 cm, all of it worked in one way.
JoinPlan worked(Kind kind, const std::string &length, int make = 1) {
  return plan_of(
             Draft{
                 .joins =
                     {{.name = "j", .long_edge = length, .band = "22 cm", .segments = {{.kind = kind}}, .make = make}}})
      .joins.at(0);
}

/// What fits into 22 cm in any way of working it in.
std::string fitting(Kind kind) {
  return kind == Kind::flat ? "22 cm" : kind == Kind::ease ? "22.5 cm" : "48 cm";
}

} // namespace

TEST_CASE("gathers are told of what is gathered and folds of what is gauged, and of nothing else") {
  for (const Kind kind : all_kinds) {
    INFO(name(kind));
    const SegmentPlan segment = worked(kind, fitting(kind)).segments.at(0);
    CHECK(segment.gathers.has_value() == (kind == Kind::gather));
    CHECK(segment.folds.has_value() == (kind == Kind::gauge));
    if (segment.gathers) CHECK(segment.gathers->ridge > 0);
    if (segment.folds) CHECK(segment.folds->count > 0);
  }
  CHECK_FALSE(worked(Kind::gather, "20 cm").segments.at(0).gathers); // less cloth than band does not stand off it
}

TEST_CASE("an edge's start ends no segment, and only what is mirrored has marks from its other end") {
  const JoinPlan one = worked(Kind::gather, "48 cm");
  CHECK_FALSE(one.marks.front().ends_segment);
  CHECK(one.marks.back().ends_segment == 0);
  CHECK_FALSE(one.marks_mirrored);
  const JoinPlan pair = worked(Kind::gather, "48 cm", 2);
  REQUIRE(pair.marks_mirrored);
  CHECK(pair.marks_mirrored->size() == pair.marks.size());
}

TEST_CASE("a length is found only where it was free, and not known only where rules conflict and it is made of one") {
  Draft draft{.lengths = {{"cuff", "22 cm"}, {.name = "sleeve", .from = "45 cm"}, {"hem", "sleeve + 4 cm"}},
              .joins = {{"j", "sleeve", "cuff"}}};
  const Plan held = plan_of(draft);
  CHECK_FALSE(held.conflict);
  for (const LengthPlan &length : held.lengths)
    CHECK(length.is);
  CHECK_FALSE(held.lengths[0].found);
  CHECK(held.lengths[1].found);
  CHECK_FALSE(held.lengths[2].found);
  draft.rules = {"2 * sleeve <= 80 cm"};
  const Plan conflicting = plan_of(draft);
  REQUIRE(conflicting.conflict);
  CHECK(conflicting.conflict->conditions.size() == 2);
  CHECK(conflicting.lengths[0].is == 220.0);
  CHECK_FALSE(conflicting.lengths[1].is);
  CHECK_FALSE(conflicting.lengths[2].is);
}

TEST_CASE("a finding weighs as much as what it finds") {
  using Limit = finding::PastLimit::Limit;
  const SegmentAt at(JoinId(0), 0);
  CHECK(level_of(finding::PastLimit{at, Limit::least}) == Verdict::too_scant);
  CHECK(level_of(finding::PastLimit{at, Limit::most}) == Verdict::too_full);
  CHECK(level_of(finding::PastLimit{at, Limit::packed}) == Verdict::cannot_be_gathered);
  CHECK(level_of(finding::LessThanBand{at}) == Verdict::cannot_be_gathered);
  CHECK(level_of(finding::RuleBroken{RuleId(0)}) == Verdict::rule_broken);
}
