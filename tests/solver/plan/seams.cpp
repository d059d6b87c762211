// SPDX-License-Identifier: GPL-3.0-or-later
// Allowances, and lengths of cloth that are formulas of what is fixed.

#include "tests/draft.hpp"
#include "tests/numbers.hpp"
#include "tests/outcomes.hpp"
#include "tests/told.hpp"

#include <numbers>

using namespace gatherwright;
using namespace gatherwright::tests;

namespace {

/// A sleeve into a cuff; what is empty is left out.
Draft cuff(const std::string &of_job, const std::string &of_join, std::optional<double> wide = std::nullopt,
           const std::string &long_edge = "52 cm") {
  return {.fabric = weighing(165, wide ? std::optional(mm(*wide)) : std::nullopt),
          .joins = {{.name = "sleeve into cuff", .long_edge = long_edge, .band = "22 cm", .allowance = of_join}},
          .allowance = of_job};
}

const GatheringPlan &rows_of(const Plan &plan) {
  return plan.joins[0].gathering.value();
}

/// A quarter of a circle of radius 200 whose garment lies towards the centre.
EdgeDraft quarter(const Formula &allowance) {
  return DrawnEdge{.path = "M 0 200 A 200 200 0 0 1 200 0", .allowance = allowance, .garment = Garment::right};
}

Formula of_symbol(int symbol) {
  return Formula::of_symbol(symbol, "a measure");
}

} // namespace

TEST_CASE("rows go by the join's allowance, else by the job's, and a drawn edge's own") {
  const Plan none = plan_of(cuff("", ""));
  CHECK(rows_of(none).at == std::vector{6.0, 10.0});
  CHECK(rows_of(none).from_seam.empty());
  const Plan of_job = plan_of(cuff("1 cm", ""));
  CHECK(of_job.joins[0].allowance == 10);
  CHECK(rows_of(of_job).at == std::vector{4.0, 8.0});
  CHECK(rows_of(of_job).from_seam == std::vector{6.0, 2.0});
  CHECK(rows_of(plan_of(cuff("1 cm", "15 mm"))).at == std::vector{9.0, 13.0});
  CHECK(rows_of(plan_of(cuff("1 cm", "0 cm"))).from_seam.empty());
  Draft drawn{.joins = {{.name = "cap", .long_edge = quarter(mm(12)), .band = "15 cm"}}, .allowance = "2 cm"};
  const Plan cap = plan_of(drawn);
  CHECK(cap.joins[0].allowance == 12);
  CHECK(rows_of(cap).from_seam == std::vector{6.0, 2.0});
  CHECK(rows_of(cap).at == std::vector{6.0, 10.0});
  drawn.joins[0].long_edge = quarter(Formula());
  CHECK(rows_of(plan_of(drawn)).from_seam.empty());
}

TEST_CASE("rows inside the garment get a note that they come out again") {
  CHECK(count<note::RowsInside>(plan_of(cuff("6 mm", "")).notes) == 0);
  CHECK(count<note::RowsInside>(plan_of(cuff("", "")).notes) == 0);
  const Plan narrow = plan_of(cuff("1 cm", "5 mm"));
  const auto *note = find<note::RowsInside>(narrow.notes);
  REQUIRE(note != nullptr);
  CHECK(note->at == JoinId(0));
  CHECK(note->allowance == 5);
  CHECK(rows_of(narrow).from_seam == std::vector{-1.0, -5.0});
}

TEST_CASE("how many widths a long edge takes counts their seams") {
  const auto widths = [](const Draft &draft) {
    const Plan plan = plan_of(draft);
    const auto *note = find<note::OverCloth>(plan.notes);
    return note == nullptr ? 1 : note->widths.value_or(-1);
  };
  // Three widths of 90 cm make 270 cm, and 266 cm between two seams of 1 cm.
  CHECK(widths(cuff("", "", 900, "270 cm")) == 3);
  CHECK(widths(cuff("1 cm", "", 900, "270 cm")) == 4);
  CHECK(widths(cuff("1 cm", "", 900, "266 cm")) == 3);
  CHECK(widths(cuff("1 cm", "", 900, "266.1 cm")) == 4);
  CHECK(widths(cuff("1 cm", "", 900, "90 cm")) == 1);
  CHECK(widths(cuff("1 cm", "", 900, "90.1 cm")) == 2);
  CHECK(widths(cuff("50 cm", "", 900, "100 cm")) == -1);
  // A ring has a seam for each of its widths.
  Draft ring = cuff("1 cm", "", 900, "264 cm");
  ring.joins[0].closed = true;
  CHECK(widths(ring) == 3);
  ring.joins[0].long_edge = "264.1 cm";
  CHECK(widths(ring) == 4);
  ring.joins[0].long_edge = "89 cm";
  CHECK(widths(ring) == 2);
  // What comes before the first stitch and after the last is cut too.
  Draft with_ends = cuff("1 cm", "", 900, "264 cm");
  with_ends.joins[0].long_edge.ends = {"1 cm", "1 cm"};
  CHECK(widths(with_ends) == 3);
  with_ends.joins[0].long_edge.ends = {"1 cm", "1.1 cm"};
  CHECK(widths(with_ends) == 4);
}

TEST_CASE("fades, ends, allowances and pins by formulas come out as by the figures that these come to") {
  const auto draft = [](bool formulas) {
    const auto either = [&](const char *formula, const char *figure) {
      return std::string(formulas ? formula : figure);
    };
    Draft made{.fabric = weighing(165),
               .measures = {{"wrist", cm(17)}},
               .lengths = {{"cuff", "wrist + 5 cm"}, {"seam", "1.2 cm"}},
               .joins = {{.name = "sleeve into cuff",
                          .long_edge = "52 cm",
                          .band = "cuff",
                          .segments = {{.fade = {{either("wrist / 5", "3.4 cm"), either("cuff / 10", "2.2 cm")}}}},
                          .allowance = either("seam + 3 mm", "1.5 cm"),
                          .apart = either("cuff / 5", "4.4 cm")}},
               .allowance = either("seam", "1.2 cm")};
    made.joins[0].long_edge.ends = {either("seam", "1.2 cm"), either("2 * seam", "2.4 cm")};
    return plan_of(made);
  };
  const Plan by_formulas = draft(true);
  const Plan by_figures = draft(false);
  const JoinPlan &one = by_formulas.joins[0];
  const JoinPlan &other = by_figures.joins[0];
  REQUIRE(one.marks.size() == 6);
  REQUIRE(other.marks.size() == 6);
  for (std::size_t n = 0; n < 6; ++n) {
    CHECK(one.marks[n].long_edge.exact == Approx(other.marks[n].long_edge.exact).epsilon(1e-12));
    CHECK(one.marks[n].long_edge.tape == other.marks[n].long_edge.tape);
    CHECK(one.marks[n].long_edge.cut.value() == Approx(other.marks[n].long_edge.cut.value()).epsilon(1e-12));
  }
  CHECK(one.allowance == Approx(15));
  CHECK(one.long_ends.value()[1] == Approx(24));
  CHECK(one.gathering->from_seam == std::vector{6.0, 2.0});
}

TEST_CASE("a drawn edge whose allowance hangs on a measure is drawn for each wearer, to the bit as alone") {
  Job job = job_of({.measures = {{"seam", mm(10)}},
                    .lengths = {{"band", "15 cm"}},
                    .joins = {{.name = "cap", .long_edge = quarter(mm(10)), .band = "band"},
                              {.name = "plain cap", .long_edge = quarter(mm(10)), .band = "band"}}});
  std::get<DrawnEdge>(job.joins[0].long_edge.is).allowance = of_symbol(0);
  REQUIRE(validate(job).empty());
  const auto prepared = *Prepared::prepare(job);
  for (const double seam : {10.0, 12.0, 5.0, 10.0}) {
    job.measures[0].is.mm = seam;
    const Plan plan = *prepared.plan(job);
    CHECK(plan.joins[0].long_length == Approx((200 - seam) * std::numbers::pi / 2).epsilon(1e-12));
    CHECK(plan.joins[0].drawn_long.value().allowance == seam);
    CHECK(plan.joins[1].long_length == Approx(190 * std::numbers::pi / 2).epsilon(1e-12));
    CHECK(numbers_of(plan) == numbers_of(plan_of(job)));
  }
  job.measures[0].is.mm = 200;
  CHECK_FALSE(prepared.plan(job));
}

TEST_CASE("what may name only what is fixed is at fault where it names a length to be found, which is told") {
  Job job = job_of({.lengths = {{.name = "sleeve", .from = "40 cm", .to = "60 cm"}, {"half", "sleeve / 2"}},
                    .joins = {{.name = "n", .long_edge = "sleeve", .band = "22 cm", .segments = {{.spread = Fade{}}}},
                              {.name = "cap", .long_edge = quarter(mm(10)), .band = "15 cm"}}});
  const Formula sleeve = of_symbol(0);
  const Formula half = of_symbol(1);
  const auto fault = [&](const auto &change) {
    Job changed = job;
    change(changed);
    const auto faults = validate(changed);
    REQUIRE(faults.size() == 1);
    return path_of(faults[0].place) + ": " + faults[0].fault.what;
  };
  const std::string hangs = " hangs on sleeve, which is to be found";
  CHECK(fault([&](Job &made) { made.allowance = sleeve; }) == "allowance: the allowance" + hangs);
  CHECK(fault([&](Job &made) { made.joins[0].allowance = half; }) == "join 0, allowance: the allowance" + hangs);
  CHECK(fault([&](Job &made) { made.joins[0].marks = PinsApart{half}; }) ==
        "join 0, marks: how far apart pins are" + hangs);
  CHECK(fault([&](Job &made) { made.joins[0].marks = PinsEvery{sleeve}; }) ==
        "join 0, marks: how far apart pins are" + hangs);
  CHECK(fault([&](Job &made) {
          made.joins[0].long_edge.ends = {Formula(), half};
        }) == "join 0, long, ends: the allowance after the last stitch" + hangs);
  CHECK(fault([&](Job &made) {
          made.joins[0].segments[0].spread = Fade{{half, Formula()}};
        }) == "join 0, segment 0, spread: the fade at the start" + hangs);
  CHECK(fault([&](Job &made) { std::get<DrawnEdge>(made.joins[1].long_edge.is).allowance = sleeve; }) ==
        "join 1, long, allowance: the allowance" + hangs);
  CHECK(fault([&](Job &made) { made.lengths.push_back({.name = "frill", .is = FreeLength{.from = half}}); }) ==
        "length 2, from: this" + hangs);
}

TEST_CASE("the room of a length that a fade hangs on ends where the fade no longer fits its band") {
  // Faded over q at the start, and over q / 2 at the end, of a band of 24 cm.
  Draft draft{.fabric = weighing(165),
              .lengths = {{"q", "10 cm"}},
              .joins = {{"n", "48 cm", "24 cm", {{.fade = {{"q", "q / 2"}}}}}}};
  const auto room = plan_of(draft).lengths[0].room;
  REQUIRE(room);
  CHECK(room->low == Approx(0).margin(1e-6));
  REQUIRE(room->high);
  CHECK(*room->high == Approx(160).epsilon(1e-5));
  CHECK(*room->high <= 160);
  draft.lengths[0].is = "16.1 cm";
  CHECK(std::holds_alternative<refusal::FadeTooLong>(refusals_of(plan(job_of(draft))).at(0)));
  // Less 3 cm, it is no length below that.
  draft.lengths[0].is = "10 cm";
  draft.joins[0].segments[0].fade = {{"q - 3 cm", "1 cm"}};
  CHECK(plan_of(draft).lengths[0].room.value().low == Approx(30).epsilon(1e-5));
}

TEST_CASE("a length that only allowances and pins hang on has room as long as these are lengths") {
  Draft draft = cuff("q - 5 mm", "");
  draft.lengths = {{"q", "2 cm"}};
  CHECK(plan_of(draft).lengths[0].room.value().low == Approx(5).epsilon(1e-5));
  draft.allowance.clear();
  draft.joins[0].apart = "q - 8 mm";
  const auto room = plan_of(draft).lengths[0].room;
  REQUIRE(room);
  CHECK(room->low.value() == Approx(8).epsilon(1e-4));
  CHECK(room->low.value() > 8);
  CHECK_FALSE(room->high);
}

TEST_CASE("a measure far from what bodies have is asked about, but of nobody younger than those surveyed") {
  const auto asked = [](double neck, std::optional<double> age) {
    Job job = job_of(
        {.measures = {{"neck", mm(neck)}, {"window", cm(900)}}, .joins = {{"neck into collar", "80 cm", "40 cm"}}});
    job.wearer_age = age;
    const Plan plan = plan_of(job);
    CHECK(count<note::MeasureFarOff>(plan.notes) <= 1);
    const auto *note = find<note::MeasureFarOff>(plan.notes);
    if (note != nullptr) {
      CHECK(note->at == MeasureId(0));
      CHECK(note->least == 275);
      CHECK(note->greatest == 514);
    }
    return note != nullptr;
  };
  CHECK(asked(1016, std::nullopt));
  CHECK(asked(40, std::nullopt));
  CHECK(asked(137, 17));
  CHECK_FALSE(asked(137.5, 17));
  CHECK_FALSE(asked(771, 40));
  CHECK(asked(771.1, 40));
  CHECK_FALSE(asked(40, 16.9));
}

TEST_CASE("a range that ends before it begins is a conflict, and it is asked whether its ends are swapped") {
  Draft draft{.lengths = {{.name = "sleeve", .from = "80 cm", .to = "60 cm"}},
              .joins = {{"sleeve into cuff", "sleeve", "24 cm"}}};
  const Plan plan = plan_of(draft);
  CHECK(plan.verdict == Verdict::rules_conflict);
  const auto *note = find<note::RangeTurned>(plan.notes);
  REQUIRE(note != nullptr);
  CHECK(note->at == LengthId(0));
  draft.lengths[0] = {.name = "sleeve", .from = "60 cm", .to = "80 cm"};
  draft.rules = {"sleeve <= 50 cm"};
  const Plan other = plan_of(draft);
  CHECK(other.verdict == Verdict::rules_conflict);
  CHECK(count<note::RangeTurned>(other.notes) == 0);
}
