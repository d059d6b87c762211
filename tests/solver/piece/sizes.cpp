// SPDX-License-Identifier: GPL-3.0-or-later
// Sizes of pieces, and what is wrong with them, against figures reckoned by hand.

#include "tests/draft.hpp"
#include "tests/told.hpp"

using namespace gatherwright;
using namespace gatherwright::tests;

namespace {

/// A sleeve of 48 cm into a cuff of 22 cm, its first 3 cm plain; the cloth is 150 cm wide.
Draft sleeve_and_cuff() {
  return {.fabric = weighing(165, cm(150)),
          .joins = {{.name = "sleeve into cuff",
                     .long_edge = "48 cm",
                     .band = "22 cm",
                     .segments = {{.kind = Kind::flat, .long_edge = "3 cm", .to = "slit"}, {.to = "cuff end"}},
                     .make = 2}},
          .allowance = "1 cm"};
}

Draft with(PieceDraft piece) {
  Draft draft = sleeve_and_cuff();
  draft.pieces.push_back(std::move(piece));
  return draft;
}

const finding::TooWide *too_wide(const Plan &plan) {
  return find<finding::TooWide>(plan.findings);
}

} // namespace

TEST_CASE("a piece is cut as large as it is between seams and its allowances together") {
  const Plan plan = plan_of(with({.name = "sleeve",
                                  .across = "48 cm",
                                  .along = "56 cm",
                                  .allowance = {{Side::bottom, "1.5 cm"}, {Side::left, "2 cm"}}}));
  const PiecePlan &sleeve = plan.pieces.at(0);
  CHECK(sleeve.across == 480);
  CHECK(sleeve.along == 560);
  CHECK(sleeve.cut_across.exact == 480 + 20 + 10);
  CHECK(sleeve.cut_along.exact == 560 + 10 + 15);
  CHECK(plan.verdict == Verdict::within_limits);
}

TEST_CASE("a cut size goes to the nearest step of the tape, and half way to the lower") {
  Draft draft = with({.name = "strap", .across = "10.1 cm", .along = "20.2 cm"});
  draft.tape_step = mm(2);
  const Plan plan = plan_of(draft);
  CHECK(plan.pieces[0].cut_across.exact == Approx(121));
  CHECK(plan.pieces[0].cut_across.tape == Approx(120));
  CHECK(plan.pieces[0].cut_along.tape == Approx(222));
}

TEST_CASE("a piece wider than its cloth is a broken rule that says how many widths would do") {
  const Plan plan = plan_of(with({.name = "curtain", .across = "300 cm", .along = "90 cm"}));
  CHECK(plan.verdict == Verdict::rule_broken);
  REQUIRE(too_wide(plan));
  CHECK(too_wide(plan)->cut_across == 3020);
  CHECK(too_wide(plan)->usable == 1500);
  CHECK(too_wide(plan)->widths == 3); // 2 x 150 less the seam's 2 cm is 298
  CHECK(plan.pieces[0].too_wide);
  CHECK(plan.cloth.empty());
  CHECK(count<note::NotLaid>(plan.notes) == 1);
}

TEST_CASE("the least number of widths leaves each seam both its allowances, and there may be none") {
  for (const auto &[across, widths] : {std::pair{"296 cm", 2}, {"296.1 cm", 3}, {"444 cm", 3}, {"444.1 cm", 4}})
    CHECK(too_wide(plan_of(with({.name = "curtain", .across = across, .along = "9 cm"})))->widths == widths);
  Draft all_seam = with({.name = "curtain", .across = "300 cm", .along = "9 cm"});
  all_seam.allowance = "75 cm";
  all_seam.pieces[0].allowance = {{Side::left, "0 cm"}, {Side::right, "0 cm"}};
  CHECK_FALSE(too_wide(plan_of(all_seam))->widths.has_value());
}

TEST_CASE("a piece that may turn is too wide only where it is both ways round") {
  const auto is_too_wide = [](const char *across, const char *along, bool turn) {
    return too_wide(plan_of(with({.name = "strip", .across = across, .along = along, .turn = turn}))) != nullptr;
  };
  CHECK(is_too_wide("200 cm", "20 cm", false));
  CHECK_FALSE(is_too_wide("200 cm", "20 cm", true));
  CHECK_FALSE(is_too_wide("20 cm", "200 cm", true));
  CHECK(is_too_wide("200 cm", "149 cm", true));
  CHECK_FALSE(is_too_wide("200 cm", "148 cm", true));
}

TEST_CASE("what passes the cloth's width by rounding alone goes into it") {
  const auto is_too_wide = [](double over) {
    Draft draft = with({.name = "body", .across = "148 cm", .along = "90 cm"});
    draft.fabric.width = mm(1500 / (1 + over));
    draft.pieces[0].fabric = draft.fabric;
    const Plan plan = plan_of(draft);
    CHECK(plan.cloth.empty() == (too_wide(plan) != nullptr));
    return too_wide(plan) != nullptr;
  };
  CHECK_FALSE(is_too_wide(0));
  CHECK_FALSE(is_too_wide(5e-10));
  CHECK(is_too_wide(2e-9));
}

TEST_CASE("a part that ends beyond its side is a broken rule") {
  const auto planned = [](const char *across, const char *at) {
    return plan_of(
        with({.name = "sleeve", .across = across, .along = "56 cm", .sides = {{.side = Side::bottom, .at = at}}}));
  };
  const Plan plan = planned("50 cm", "4 cm");
  CHECK(plan.verdict == Verdict::rule_broken);
  const auto *past = find<finding::PastTheEnd>(plan.findings);
  REQUIRE(past);
  CHECK(past->end == Approx(520));
  CHECK(past->side == 500);
  CHECK(past->at == PartAt(SideAt(PieceId(0), Side::bottom), 0));
  CHECK_FALSE(plan.pieces[0].marks.empty());
  CHECK(plan.cloth.size() == 1);
  CHECK(planned("52 cm", "4 cm").verdict == Verdict::within_limits);
}

TEST_CASE("parts of a side that overlap are a broken rule, told of the one that begins later") {
  const auto planned = [](const char *second_at) {
    return plan_of(with({.name = "sleeve",
                         .across = "100 cm",
                         .along = "56 cm",
                         .sides = {{.side = Side::bottom, .from = 1, .at = second_at},
                                   {.side = Side::bottom, .to = 1, .at = "10 cm"}}}));
  };
  const Plan plan = planned("12 cm");
  CHECK(plan.verdict == Verdict::rule_broken);
  const auto *overlaps = find<finding::Overlaps>(plan.findings);
  REQUIRE(overlaps);
  CHECK(overlaps->at.part == 0);
  CHECK(overlaps->other == 1);
  CHECK(overlaps->begins == Approx(120));
  CHECK(overlaps->other_end == Approx(130));
  CHECK(planned("13 cm").verdict == Verdict::within_limits);
  CHECK(planned("0 cm").verdict == Verdict::rule_broken);
}

TEST_CASE("a piece that comes out as nothing, and a part that begins before its side, are refused") {
  Draft draft = sleeve_and_cuff();
  draft.lengths = {{.name = "sleeve", .from = "40 cm", .to = "60 cm"}};
  draft.joins[0].long_edge = "sleeve";
  draft.pieces = {{.name = "strip", .across = "10 cm", .along = "sleeve - 70 cm"}};
  const auto none = only_refusal<refusal::NoSize>(plan(job_of(draft)));
  CHECK_FALSE(none.across);
  CHECK(none.is < 0);
  draft.pieces = {{.name = "body",
                   .across = "100 cm",
                   .along = "60 cm",
                   .sides = {{.side = Side::top, .edge = WhichEdge::band, .at = "sleeve - 70 cm"}}}};
  const auto before = only_refusal<refusal::BeforeTheSide>(plan(job_of(draft)));
  CHECK(before.at == PartAt(SideAt(PieceId(0), Side::top), 0));
  CHECK(path_of(place_of(Refusal(before))) == "piece 0, top, part 0, at");
}

TEST_CASE("a piece whose width hangs on what is found keeps to the cloth, and is named where it cannot") {
  Draft draft = sleeve_and_cuff();
  draft.fabric.width = cm(46);
  draft.lengths = {{.name = "sleeve", .from = "40 cm", .to = "60 cm", .aim = "52 cm"}};
  draft.joins[0].long_edge = "sleeve";
  draft.pieces = {{.name = "sleeve", .across = "sleeve", .along = "56 cm"}};
  CHECK(plan_of(draft).lengths[0].is == Approx(440));
  draft.fabric.width = cm(41);
  draft.pieces[0].fabric.reset();
  const Plan conflicting = plan_of(draft);
  CHECK(conflicting.verdict == Verdict::rules_conflict);
  CHECK(conflicting.pieces.empty());
  REQUIRE(conflicting.conflict);
  REQUIRE(conflicting.conflict->conditions.size() == 2);
  CHECK(std::holds_alternative<condition::InRange>(conflicting.conflict->conditions[0]));
  CHECK(std::holds_alternative<condition::NoWider>(conflicting.conflict->conditions[1]));
  draft.pieces[0].turn = true; // turned it would go, but for its length
  CHECK(plan_of(draft).verdict == Verdict::rule_broken);
}

TEST_CASE("sides without an allowance that anybody gave, and allowances unlike the seam's, get notes") {
  Draft draft = with({.name = "sleeve", .across = "48 cm", .along = "56 cm", .sides = {{.side = Side::bottom}}});
  CHECK(count<note::NoAllowance>(plan_of(draft).notes) == 0);
  CHECK(count<note::AllowancesDiffer>(plan_of(draft).notes) == 0);
  draft.pieces[0].allowance = {{Side::bottom, "1.5 cm"}};
  const Plan plan = plan_of(draft);
  const auto *differ = find<note::AllowancesDiffer>(plan.notes);
  REQUIRE(differ);
  CHECK(differ->of_side == 15);
  CHECK(differ->of_join == 10);
  draft.allowance = "";
  const Plan without = plan_of(draft);
  const auto *none = find<note::NoAllowance>(without.notes);
  REQUIRE(none);
  CHECK(none->at == std::vector{PieceId(0)});
  for (const Side side : all_sides)
    draft.pieces[0].allowance.emplace_back(side, "1 cm");
  CHECK(count<note::NoAllowance>(plan_of(draft).notes) == 0);
}
