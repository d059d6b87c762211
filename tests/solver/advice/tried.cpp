// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/draft.hpp"
#include "tests/told.hpp"

#include <cmath>
#include <string>

using namespace gatherwright;
using namespace gatherwright::tests;

namespace {

/// One join in this cloth.
Plan planned(const Fabric &cloth, const JoinDraft &join, std::optional<Length> tape_step = std::nullopt) {
  return plan_of(Draft{.tape_step = tape_step, .fabric = cloth, .joins = {join}});
}

} // namespace

TEST_CASE("a longer stitch is noted only where planned with it the stretch is within limits") {
  // A strip drawn tight without a word of its stitch was gathered with the job's: with any other it would have come to
  // the same, so no stitch helps.
  Fabric unsaid_stitch;
  unsaid_stitch.swatch = {cm(30), cm(6), std::nullopt, std::nullopt};
  const Plan unsaid = planned(unsaid_stitch, {"x", "60 cm", "5 cm"});
  CHECK(count<note::StitchWouldDo>(unsaid.notes) == 0);
  // Drawn tight with 2 mm to a fifth, 24 cm into 4 cm take 2.4 mm, if the strip looks well from there on.
  Fabric fine;
  fine.swatch = {cm(30), cm(4), std::array{cm(4), cm(16)}, mm(3)};
  const auto stitched_fine = [&fine](const std::string &length) {
    return plan_of(Draft{.fabric = fine, .gathering = stitched(mm(2)), .joins = {{"x", length, "4 cm"}}});
  };
  const Plan fits = stitched_fine("24 cm");
  CHECK(fits.verdict == Verdict::cannot_be_gathered); // 30 / 4 * 2 / 3 = 5 to 1 at most
  const auto *note = find<note::StitchWouldDo>(fits.notes);
  REQUIRE(note);
  CHECK(note->stitch == Approx(2.5)); // by half millimetres
  const Plan in_inches =
      plan_of(Draft{.unit = Unit::in, .fabric = fine, .gathering = stitched(mm(2)), .joins = {{"x", "24 cm", "4 cm"}}});
  const auto *by_inches = find<note::StitchWouldDo>(in_inches.notes);
  REQUIRE(by_inches);
  CHECK(by_inches->stitch == Approx(25.4 / 8)); // by sixteenths of an inch
  // 8 to 1 can be drawn up with a stitch of 3.2 mm, but the strip looks well only up to 7.5.
  CHECK(count<note::StitchWouldDo>(stitched_fine("32 cm").notes) == 0);
}

TEST_CASE("gauging is noted only where planned as gauged the stretch is within limits") {
  // 2.6 to 1 of heavy wool is too full to be gathered, and stands well as cartridge pleats.
  const Fabric wool = weighing(400);
  CHECK(count<note::BetterGauged>(planned(wool, {"x", "58 cm", "22 cm"}).notes) == 1);
  // So are two such stretches, each with its own part of both edges.
  const Plan two = planned(wool, {"x", "58 cm", "22 cm", {{}, {.long_edge = "29 cm", .band = "11 cm"}}});
  CHECK(count<note::BetterGauged>(two.notes) == 2);
  // Of two that share, both too full, the one gauged takes so much of the other's that it is too full again.
  const Plan sharing = planned(wool, {"x", "60 cm", "22 cm", {{}, {}}});
  CHECK(count<note::BetterGauged>(sharing.notes) == 0);
}

TEST_CASE("edges are said to be swapped only where planned the other way round the join is within limits") {
  const auto swapped = [](const JoinDraft &join) {
    return std::get<finding::LessThanBand>(planned(weighing(165), join).findings.at(0)).swapped;
  };
  CHECK(swapped({"x", "22 cm", "52 cm"}));
  // The whole edges are as 2.36 to 1. But 20 cm of the band are plain, which leaves 32 cm for 2 cm.
  CHECK_FALSE(swapped({"x", "22 cm", "52 cm", {{.kind = Kind::flat, .band = "20 cm"}, {}}}));
  // And here it is the whole edges that would not do, and the gathered part of them that would.
  CHECK(swapped({"x", "42 cm", "72 cm", {{.kind = Kind::flat, .band = "20 cm"}, {}}}));
}

TEST_CASE("what an edge alone would have to be is left out where no step of the tape would do") {
  // All of the long edge is plain but for 1 mm that goes with 2 mm of band: nothing on a tape of centimetres does.
  const JoinDraft join{
      "x", "31.4 cm", "30.4 cm", {{.kind = Kind::flat, .band = "30 cm"}, {.limits = {1.1, std::nullopt, 1.3}}}};
  const Plan coarse = planned({}, join, cm(1));
  REQUIRE(coarse.findings.size() == 1);
  CHECK_FALSE(alone_of(coarse.findings[0]).long_edge);
  const Plan fine = planned({}, join, mm(0.1));
  REQUIRE(fine.findings.size() == 1);
  REQUIRE(alone_of(fine.findings[0]).long_edge);
  CHECK(*alone_of(fine.findings[0]).long_edge == Approx(300 + 1.3 * 4));
}

TEST_CASE("a drawn edge is told what it alone would have to be as any other is") {
  const Plan plan = planned(weighing(165), {"x", DrawnEdge{.path = "M 0 0 L 800 0 L 900 100"}, "24 cm"});
  REQUIRE(plan.findings.size() == 1);
  const finding::EdgesAlone &alone = alone_of(plan.findings[0]);
  REQUIRE(alone.long_edge);
  CHECK(*alone.long_edge == Approx(2.7 * 240));
  REQUIRE(alone.band);
  CHECK(*alone.band == Approx((800 + 100 * std::sqrt(2.0)) / 2.7));
}

TEST_CASE("a job of many bad joins is told what would do of those that come first, and all that is wrong") {
  Draft draft{.fabric = weighing(165)};
  for (int j = 0; j < 400; ++j)
    draft.joins.push_back({"x" + std::to_string(j), "80 cm", "20 cm"});
  const Plan plan = plan_of(draft);
  REQUIRE(plan.findings.size() == 400);
  CHECK(alone_of(plan.findings.front()).long_edge);
}
