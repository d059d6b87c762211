// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/draft.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

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
  CHECK(level_of(finding::TooWide{PieceId(0)}) == Verdict::rule_broken);
  const PartAt part(SideAt(PieceId(0), Side::top), 0);
  CHECK(level_of(finding::PastTheEnd{part}) == Verdict::rule_broken);
  CHECK(level_of(finding::Overlaps{part}) == Verdict::rule_broken);
}

TEST_CASE("verdicts rise in weight, and of several the heaviest stands for all") {
  STATIC_REQUIRE(Verdict::within_limits < Verdict::too_scant);
  STATIC_REQUIRE(Verdict::too_scant < Verdict::too_full);
  STATIC_REQUIRE(Verdict::too_full < Verdict::rule_broken);
  STATIC_REQUIRE(Verdict::rule_broken < Verdict::cannot_be_gathered);
  STATIC_REQUIRE(Verdict::cannot_be_gathered < Verdict::rules_conflict);
  // Into 20 cm of band, and two stretches of one join.
  const auto verdict = [](const std::vector<std::string> &longs, const std::vector<std::string> &rules = {}) {
    Draft draft{.fabric = weighing(165), .rules = rules};
    for (const std::string &length : longs)
      draft.joins.push_back({"j" + length, length, "20 cm"});
    return plan_of(draft).verdict;
  };
  CHECK(verdict({"44 cm", "22 cm"}) == Verdict::too_scant);
  CHECK(verdict({"60 cm", "22 cm", "44 cm"}) == Verdict::too_full);
  CHECK(verdict({"60 cm"}, {"7 cm >= 8 cm"}) == Verdict::rule_broken);
  CHECK(verdict({"60 cm", "19 cm"}, {"7 cm >= 8 cm"}) == Verdict::cannot_be_gathered);
  const JoinPlan join =
      plan_of(Draft{.fabric = weighing(165),
                    .joins = {{"j", "86 cm", "40 cm", {{.long_edge = "22 cm", .band = "20 cm"}, {.band = "20 cm"}}}}})
          .joins.at(0);
  CHECK(join.segments[0].verdict == Verdict::too_scant);
  CHECK(join.segments[1].verdict == Verdict::too_full);
  CHECK(join.verdict == Verdict::too_full);
}

TEST_CASE("a plan has the verdict of the worst that it finds, and neither joins nor pieces where its rules conflict") {
  const Plan found = plan_of(Draft{
      .fabric = weighing(165), .rules = {"7 cm >= 8 cm"}, .joins = {{"a", "60 cm", "20 cm"}, {"b", "22 cm", "20 cm"}}});
  REQUIRE(found.findings.size() == 3);
  Verdict worst = Verdict::within_limits;
  for (const Finding &finding : found.findings)
    worst = std::max(worst, level_of(finding));
  CHECK(found.verdict == worst);
  CHECK(found.joins.size() == 2);
  CHECK_FALSE(found.conflict);
  const Plan conflict = plan_of(Draft{.lengths = {{.name = "sleeve", .from = "45 cm"}},
                                      .rules = {"sleeve <= 40 cm"},
                                      .joins = {{"a", "sleeve", "20 cm"}},
                                      .pieces = {{.name = "yoke", .across = "40 cm", .along = "20 cm"}}});
  CHECK(conflict.verdict == Verdict::rules_conflict);
  CHECK(conflict.joins.empty());
  CHECK(conflict.pieces.empty());
  CHECK(conflict.conflict);
}

TEST_CASE("what is not asked for is left out, and the rest is the same") {
  const auto draft = [](const std::string &band) {
    return Draft{.fabric = weighing(165),
                 .lengths = {{.name = "sleeve", .from = "40 cm", .to = "50 cm"}},
                 .joins = {{"a", DrawnEdge{.path = "M 0 0 C 100 80 200 -80 300 0"}, band}, {"b", "sleeve", "20 cm"}}};
  };
  for (const char *band : {"15 cm", "10 cm"}) { // within limits, and too full
    const Plan all = plan_of(draft(band), {.profile = true, .outlines = true, .advice = true});
    CHECK(all.joins[0].profile);
    CHECK(all.joins[0].drawn_long.value().outline);
    CHECK((all.lengths[0].room || !all.remedies.empty()));
    const Plan none = plan_of(draft(band), {.profile = false, .outlines = false, .advice = false});
    CHECK_FALSE(none.joins[0].profile);
    CHECK_FALSE(none.joins[0].drawn_long.value().outline);
    CHECK_FALSE(none.lengths[0].room);
    CHECK(none.remedies.empty());
    CHECK(none.verdict == all.verdict);
    CHECK(none.lengths[0].is == all.lengths[0].is);
    for (std::size_t j = 0; j < all.joins.size(); ++j)
      for (std::size_t i = 0; i < all.joins[j].marks.size(); ++i) {
        CHECK(none.joins[j].marks[i].long_edge.exact == all.joins[j].marks[i].long_edge.exact);
        CHECK(none.joins[j].marks[i].band.tape == all.joins[j].marks[i].band.tape);
      }
  }
}
