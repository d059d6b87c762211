// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/draft.hpp"
#include "tests/told.hpp"

#include "gatherwright/limits.hpp"

#include <cmath>

using namespace gatherwright;
using tests::cm;
using tests::Draft;
using tests::plan_of;
using tests::weighing;

namespace {

/// Least squares answers are sums of a few products of lengths of order 1e3 mm, each rounded at 1e-16: 1e-12 relative.
Approx near(double value) {
  return Approx(value).epsilon(1e-11).margin(1e-9);
}

} // namespace

TEST_CASE("two gathered sides round a plain centre with nothing given get equal bands and equal fullness") {
  const Plan plan =
      plan_of(Draft{.joins = {{"skirt", "90 cm", "40 cm", {{}, {.kind = Kind::flat, .long_edge = "6 cm"}, {}}}}});
  const auto &segments = plan.joins[0].segments;
  CHECK(segments[0].band == near(170));
  CHECK(segments[2].band == near(170));
  CHECK(segments[0].long_length == near(420));
  CHECK(segments[1].long_length == near(60));
  CHECK(segments[1].band == near(60));
  CHECK(segments[0].fullness == near(420.0 / 170));
}

TEST_CASE("a whole edge that is one gathered segment has its fullness by division") {
  const Plan plan = plan_of(Draft{.joins = {{"cuff", "52 cm", "22 cm"}}});
  CHECK(plan.joins[0].long_length / plan.joins[0].band == near(52.0 / 22));
  CHECK(plan.joins[0].segments[0].fullness == near(52.0 / 22));
}

TEST_CASE("the extra goes to segments in proportion to share times band") {
  const Plan plan =
      plan_of(Draft{.joins = {{"yoke", "100 cm", "45 cm", {{.band = "20 cm", .share = 2}, {.band = "25 cm"}}}}});
  const auto &segments = plan.joins[0].segments;
  const double extra = 550;
  CHECK(segments[0].long_length - 200 == near(extra * 2 * 200 / (2 * 200 + 250)));
  CHECK(segments[1].long_length - 250 == near(extra * 250 / (2 * 200 + 250)));
}

TEST_CASE("ease and gathers share the extra in proportion to what each cloth calls ideal") {
  const Plan plan = plan_of(Draft{.fabric = weighing(165),
                                  .joins = {{"head",
                                             "56 cm",
                                             "44 cm",
                                             {{.kind = Kind::flat, .long_edge = "6 cm"},
                                              {.kind = Kind::ease, .band = "13 cm"},
                                              {.band = "12 cm"},
                                              {.kind = Kind::ease}}}}});
  // Ideal extra at 165 g/m2: 1.10 of a gathered band, 0.04 of an eased one.
  const double whole = 0.04 * 130 + 1.10 * 120 + 0.04 * 130;
  CHECK(plan.joins[0].segments[1].long_length - 130 == near(120 * 0.04 * 130 / whole));
  CHECK(plan.joins[0].segments[2].long_length - 120 == near(120 * 1.10 * 120 / whole));
}

TEST_CASE("a segment pressed against its limit gives the rest of its extra to the others") {
  const Plan plan =
      plan_of(Draft{.fabric = weighing(165),
                    .joins = {{"yoke", "100 cm", "40 cm", {{.band = "20 cm", .share = 3}, {.band = "20 cm"}}}}});
  // By shares alone the first would take 200 + 450 mm; at 2.7 to 1 it takes 540, and the second the other 460.
  CHECK(plan.joins[0].segments[0].long_length == near(540));
  CHECK(plan.joins[0].segments[1].long_length == near(460));
  CHECK(plan.verdict == Verdict::within_limits);
}

TEST_CASE("where limits cannot be kept the violations are shared so that their squares over the bands are least") {
  const Plan plan = plan_of(
      Draft{.fabric = weighing(165), .joins = {{"yoke", "150 cm", "40 cm", {{.band = "10 cm"}, {.band = "30 cm"}}}}});
  // 1500 - 2.7 * 400 = 420 mm too much, shared in proportion to the bands: the same fullness on both.
  CHECK(plan.joins[0].segments[0].long_length == near(270 + 105));
  CHECK(plan.joins[0].segments[1].long_length == near(810 + 315));
  CHECK(plan.verdict == Verdict::too_full);
}

TEST_CASE("bands are found where every gathered segment gives its cloth") {
  const Plan plan =
      plan_of(Draft{.joins = {{"neck", "90 cm", "40 cm", {{.long_edge = "45 cm"}, {.long_edge = "45 cm"}}}}});
  CHECK(plan.joins[0].segments[0].band == near(200));
  CHECK(plan.joins[0].segments[1].band == near(200));
}

TEST_CASE("a free edge without an aim is drawn to the ideal fullness of its cloth") {
  const Plan plan =
      plan_of(Draft{.fabric = weighing(165), .lengths = {{"sleeve"}}, .joins = {{"cuff", "sleeve", "22 cm"}}});
  CHECK(plan.lengths[0].found.value().exact == near(2.1 * 220));
  CHECK(plan.lengths[0].is == near(462));
}

TEST_CASE("a free edge of two joins settles between what each would like, weighed as the method says") {
  const Plan plan = plan_of(Draft{.fabric = weighing(165),
                                  .lengths = {{"sleeve"}},
                                  .joins = {{"cuff", "sleeve", "22 cm"}, {"head", "sleeve", "30 cm"}}});
  // Minimise (l - 2.1 b1)^2 / b1 + (l - 2.1 b2)^2 / b2.
  const double w1 = 1 / 220.0;
  const double w2 = 1 / 300.0;
  CHECK(plan.lengths[0].found.value().exact == near((w1 * 2.1 * 220 + w2 * 2.1 * 300) / (w1 + w2)));
}

TEST_CASE("an aim is met where it can be, and a limit of the cloth comes before it") {
  const auto sleeve = [](const char *aim) {
    return plan_of(Draft{
        .fabric = weighing(165), .lengths = {{.name = "sleeve", .aim = aim}}, .joins = {{"cuff", "sleeve", "22 cm"}}});
  };
  CHECK(sleeve("50 cm").lengths[0].found.value().exact == near(500));
  CHECK(sleeve("80 cm").lengths[0].found.value().exact == near(2.7 * 220));
  CHECK(sleeve("80 cm").verdict == Verdict::within_limits);
}

TEST_CASE("the shortest slit that lets the head through is found in closed form") {
  const Plan plan =
      plan_of(Draft{.measures = {{"head", cm(58)}, {"neck", cm(39)}},
                    .lengths = {{"collar", "neck + 3 cm"}, {.name = "slit", .to = "30 cm", .aim = "least"}},
                    .rules = {"collar + 2 * slit >= head + 10 cm"},
                    .joins = {{"neck", "84 cm", "collar"}}});
  CHECK(plan.lengths[1].found.value().exact == near((580 + 100 - 420) / 2.0));
}

TEST_CASE("a found length on a half step goes to the lower one") {
  const Plan plan = plan_of(Draft{.tape_step = tests::mm(2),
                                  .lengths = {{.name = "sleeve", .aim = "50.1 cm"}},
                                  .joins = {{"cuff", "sleeve", "22 cm"}}});
  CHECK(plan.lengths[0].found.value().exact == near(501));
  CHECK(plan.lengths[0].is == 500);
}

TEST_CASE("half a step goes to the lower step, however many figures that are not exact the half was reckoned from") {
  // A length that nothing is sewn to, beside one that is solved for: 62.9 cm lies halfway between steps of 2 mm.
  const Plan plan = plan_of(Draft{.tape_step = tests::mm(2),
                                  .lengths = {{"sleeve"}, {.name = "body", .aim = "62.9 cm"}},
                                  .joins = {{"j", "sleeve", "64.5 cm", {{}, {}}}}});
  CHECK(plan.lengths[1].found.value().exact == near(629));
  CHECK(plan.lengths[1].is == near(628));
  // Steps of 1/16 in, no half of which is a binary figure of millimetres, beside joins of any size.
  for (int n = 0; n < 60; ++n) {
    const std::string half = std::to_string(2 * n + 1) + "/32 in";
    INFO(half);
    const Plan inches =
        plan_of(Draft{.unit = Unit::in,
                      .tape_step = tests::mm(25.4 / 16),
                      .lengths = {{"sleeve"}, {.name = "body", .aim = "20 in + " + half}},
                      .joins = {{"j", "sleeve", std::to_string(7 + 3 * n) + " mm", {{}, {.share = 2}, {}}}}});
    CHECK(inches.lengths[1].is == near(20 * 25.4 + n * 25.4 / 16));
  }
}

TEST_CASE("a found length goes to the other side where the nearer step breaks what must hold") {
  // 130.4 mm is nearest 130, where the head no longer goes through.
  const Plan plan = plan_of(Draft{.measures = {{"head", cm(58.08)}},
                                  .lengths = {{.name = "slit", .from = "0 cm", .aim = "least"}},
                                  .rules = {"42 cm + 2 * slit >= head + 10 cm"},
                                  .joins = {{"neck", "84 cm", "42 cm"}}});
  CHECK(plan.lengths[0].found.value().exact == near(130.4));
  CHECK(plan.lengths[0].is == 131);
}

TEST_CASE("a found length that no step suits stays as it is, with a note") {
  const Plan plan = plan_of(
      Draft{.lengths = {{"a"}, {"b"}}, .rules = {"a + b = 100.05 cm", "a = b"}, .joins = {{"x", "a", "24 cm"}}});
  CHECK(plan.lengths[0].is == near(500.25));
  REQUIRE(std::any_of(plan.notes.begin(), plan.notes.end(), [](const Note &note) {
    const auto *off_tape = std::get_if<note::OffTape>(&note);
    return off_tape && off_tape->at == LengthId(0);
  }));
}

TEST_CASE("shared cloth is parted between two free edges by their wishes") {
  const Plan plan = plan_of(Draft{.lengths = {{.name = "sleeve", .aim = "60 cm"}, {.name = "body", .aim = "120 cm"}},
                                  .rules = {"sleeve + body = 150 cm"},
                                  .joins = {{"cuff", "sleeve", "26 cm"}, {"yoke", "body", "52 cm"}}});
  // Relative misses weighed alike: 300 mm too much, in proportion to the squares of the aims.
  CHECK(plan.lengths[0].found.value().exact == near(600 - 300 * 1.0 / 5));
  CHECK(plan.lengths[1].found.value().exact == near(1200 - 300 * 4.0 / 5));
}

TEST_CASE("the plan of every closed form is certified") {
  const Plan plan =
      plan_of(Draft{.lengths = {{.name = "sleeve", .from = "40 cm", .to = "60 cm"}},
                    .rules = {"2 * sleeve <= 110 cm"},
                    .joins = {{"cuff", "sleeve", "22 cm", {{.kind = Kind::flat, .long_edge = "2 cm"}, {}}},
                              {"head", "sleeve", "30 cm", {{}, {.kind = Kind::ease}, {}}}}});
  REQUIRE(plan.certificate);
  CHECK(plan.certificate->feasibility <= 1e-9);
  CHECK(plan.certificate->stationarity <= 1e-9);
  CHECK(plan.certificate->complementarity <= 1e-9);
}
