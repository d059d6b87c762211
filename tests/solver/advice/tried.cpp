// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/made_job.hpp"
#include "tests/told.hpp"

#include <cmath>
#include <string>

using namespace gatherwright;

namespace {

/// One join, with these members of the job and of the join.
Plan planned(const std::string &job, const std::string &join) {
  return tests::plan_of("{" + job + R"("joins": [{"name": "x", )" + join + "}]}");
}

} // namespace

TEST_CASE("a longer stitch is noted only where planned with it the stretch is within limits") {
  // A strip drawn tight without a word of its stitch was gathered with the job's: with any other it would have come to
  // the same, so no stitch helps.
  const Plan unsaid =
      planned(R"("fabric": {"swatch": {"cut": "30 cm", "tight": "6 cm"}}, )", R"("long": "60 cm", "band": "5 cm")");
  CHECK(tests::count<note::StitchWouldDo>(unsaid.notes) == 0);
  // Drawn tight with 2 mm to a fifth, 24 cm into 4 cm take 2.4 mm, if the strip looks well from there on.
  const std::string fine = R"("gathering": {"stitch": "2 mm"}, "fabric": {"swatch": {"cut": "30 cm", "tight": "4 cm",
    "good": ["4 cm", "16 cm"], "stitch": "3 mm"}}, )";
  const Plan fits = planned(fine, R"("long": "24 cm", "band": "4 cm")");
  CHECK(fits.verdict == Verdict::cannot_be_gathered); // 30 / 4 * 2 / 3 = 5 to 1 at most
  const auto *note = tests::find<note::StitchWouldDo>(fits.notes);
  REQUIRE(note);
  CHECK(note->stitch == Approx(2.5)); // by half millimetres
  // 8 to 1 can be drawn up with a stitch of 3.2 mm, but the strip looks well only up to 7.5.
  CHECK(tests::count<note::StitchWouldDo>(planned(fine, R"("long": "32 cm", "band": "4 cm")").notes) == 0);
}

TEST_CASE("gauging is noted only where planned as gauged the stretch is within limits") {
  // 2.6 to 1 of heavy wool is too full to be gathered, and stands well as cartridge pleats.
  const std::string wool = R"("fabric": {"weight": "400 g/m2"}, )";
  CHECK(tests::count<note::BetterGauged>(planned(wool, R"("long": "58 cm", "band": "22 cm")").notes) == 1);
  // So are two such stretches, each with its own part of both edges.
  const Plan two =
      planned(wool, R"("long": "58 cm", "band": "22 cm", "segments": [{}, {"long": "29 cm", "band": "11 cm"}])");
  CHECK(tests::count<note::BetterGauged>(two.notes) == 2);
  // Of two that share, both too full, the one gauged takes so much of the other's that it is too full again.
  const Plan sharing = planned(wool, R"("long": "60 cm", "band": "22 cm", "segments": [{}, {}])");
  CHECK(tests::count<note::BetterGauged>(sharing.notes) == 0);
}

TEST_CASE("edges are said to be swapped only where planned the other way round the join is within limits") {
  const std::string cloth = R"("fabric": {"weight": "165 g/m2"}, )";
  const auto swapped = [&](const std::string &join) {
    return std::get<finding::LessThanBand>(planned(cloth, join).findings.at(0)).swapped;
  };
  CHECK(swapped(R"("long": "22 cm", "band": "52 cm")"));
  // The whole edges are as 2.36 to 1. But 20 cm of the band are plain, which leaves 32 cm for 2 cm.
  CHECK_FALSE(swapped(R"("long": "22 cm", "band": "52 cm", "segments": [{"kind": "flat", "band": "20 cm"}, {}])"));
  // And here it is the whole edges that would not do, and the gathered part of them that would.
  CHECK(swapped(R"("long": "42 cm", "band": "72 cm", "segments": [{"kind": "flat", "band": "20 cm"}, {}])"));
}

TEST_CASE("what an edge alone would have to be is left out where no step of the tape would do") {
  // All of the long edge is plain but for 1 mm that goes with 2 mm of band: nothing on a tape of centimetres does.
  const std::string rest =
      R"("band": "30.4 cm", "segments": [{"kind": "flat", "band": "30 cm"}, {"limits": {"least": 1.1, "most": 1.3}}])";
  const Plan coarse = planned(R"("tape_step": "1 cm", )", R"("long": "31.4 cm", )" + rest);
  REQUIRE(coarse.findings.size() == 1);
  CHECK_FALSE(tests::alone_of(coarse.findings[0]).long_edge);
  const Plan fine = planned(R"("tape_step": "0.1 mm", )", R"("long": "31.4 cm", )" + rest);
  REQUIRE(fine.findings.size() == 1);
  REQUIRE(tests::alone_of(fine.findings[0]).long_edge);
  CHECK(*tests::alone_of(fine.findings[0]).long_edge == Approx(300 + 1.3 * 4));
}

TEST_CASE("a drawn edge is told what it alone would have to be as any other is") {
  const Plan plan = planned(R"("fabric": {"weight": "165 g/m2"}, )",
                            R"("long": {"path": "M 0 0 L 800 0 L 900 100"}, "band": "24 cm")");
  REQUIRE(plan.findings.size() == 1);
  const finding::EdgesAlone &alone = tests::alone_of(plan.findings[0]);
  REQUIRE(alone.long_edge);
  CHECK(*alone.long_edge == Approx(2.7 * 240));
  REQUIRE(alone.band);
  CHECK(*alone.band == Approx((800 + 100 * std::sqrt(2.0)) / 2.7));
}

TEST_CASE("a job of many bad joins is told what would do of those that come first, and all that is wrong") {
  std::string joins;
  for (int j = 0; j < 400; ++j)
    joins +=
        std::string(j ? ", " : "") + R"({"name": "x)" + std::to_string(j) + R"(", "long": "80 cm", "band": "20 cm"})";
  const Plan plan = tests::plan_of(R"({"fabric": {"weight": "165 g/m2"}, "joins": [)" + joins + "]}");
  REQUIRE(plan.findings.size() == 400);
  CHECK(tests::alone_of(plan.findings.front()).long_edge);
}
