// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/made_job.hpp"
#include "tests/told.hpp"

#include <array>
#include <cmath>
#include <numbers>
#include <string>
#include <variant>

using namespace gatherwright;

namespace {

/// A quarter of a circle of radius 200, convex; the garment lies towards its centre. Then the same from the other end.
const std::string quarter = R"("path": "M 0 200 A 200 200 0 0 1 200 0", "garment": "right")";
const std::string quarter_back = R"("path": "M 200 0 A 200 200 0 0 0 0 200", "garment": "left")";

std::string job(const std::string &drawn, const std::string &band, const std::string &segments) {
  return R"({ "unit": "mm", "joins": [ { "name": "cap", "long": { )" + drawn +
         R"(, "allowance": "10 mm", "ends": ["5 mm", "8 mm"] }, "band": )" + band + R"(, "segments": [ )" + segments +
         " ] } ] }";
}

std::string eased(const std::string &drawn, double band) {
  return job(drawn, std::to_string(band), R"({ "kind": "ease" })");
}

constexpr double stitching = 190 * std::numbers::pi / 2;

} // namespace

TEST_CASE("marks of a drawn edge stand on its stitching line, and cut places beside them on the cut edge") {
  const Plan plan = tests::plan_of(job(quarter, "100", R"({ "kind": "gather" })"));
  const JoinPlan &join = plan.joins[0];
  REQUIRE(join.drawn_long);
  CHECK(join.drawn_long->cut_edge == Approx(100 * std::numbers::pi).epsilon(1e-12));
  CHECK(join.long_length == Approx(stitching).epsilon(1e-12));
  for (const Mark &mark : join.marks) {
    const double angle = mark.long_edge.exact / 190; // from the start, about the centre at (200, 200)
    REQUIRE(mark.long_edge.at);
    REQUIRE(mark.long_edge.normal);
    CHECK((*mark.long_edge.at)[0] == Approx(200 - 190 * std::cos(angle)).margin(1e-9));
    CHECK((*mark.long_edge.at)[1] == Approx(200 - 190 * std::sin(angle)).margin(1e-9));
    CHECK((*mark.long_edge.normal)[0] == Approx(-std::cos(angle)).margin(1e-9));
    CHECK((*mark.long_edge.normal)[1] == Approx(-std::sin(angle)).margin(1e-9));
    CHECK(*mark.long_edge.cut == Approx(5 + 200 * angle).epsilon(1e-9));
  }
}

TEST_CASE("a line drawn from the other end gives the same marks from the other end") {
  const std::string fade = R"({ "kind": "gather", "spread": { "fade": ["20 mm", "50 mm"] } })";
  const std::string fade_back = R"({ "kind": "gather", "spread": { "fade": ["50 mm", "20 mm"] } })";
  const JoinPlan there = tests::plan_of(job(quarter, "150", fade)).joins[0];
  const JoinPlan back = tests::plan_of(job(quarter_back, "150", fade_back)).joins[0];
  REQUIRE(there.marks.size() == back.marks.size());
  for (std::size_t n = 0; n < there.marks.size(); ++n) {
    const MarkPlace &one = there.marks[n].long_edge;
    const MarkPlace &other = back.marks[back.marks.size() - 1 - n].long_edge;
    CHECK(one.exact == Approx(there.long_length - other.exact).margin(1e-9));
    CHECK((*one.at)[0] == Approx((*other.at)[0]).margin(1e-8));
    CHECK((*one.at)[1] == Approx((*other.at)[1]).margin(1e-8));
    CHECK((*one.normal)[0] == Approx((*other.normal)[0]).margin(1e-9));
  }
}

TEST_CASE("ease may be half as much along straight grain, and all of it on the bias") {
  const auto most = [](const std::string &path) {
    const std::string drawn = R"("path": ")" + path + R"(", "garment": "right")";
    return tests::plan_of(eased(drawn, 98)).joins[0].segments[0].limits.most;
  };
  const Plan straight = tests::plan_of(R"({ "unit": "mm", "joins": [ { "name": "seam", "long": 100, "band": 98,
    "segments": [ { "kind": "ease" } ] } ] })");
  const double all = straight.joins[0].segments[0].limits.most - 1;
  CHECK(most("M 0 0 V 100") - 1 == Approx(all / 2).epsilon(1e-12));
  CHECK(most("M 0 0 H 100") - 1 == Approx(all / 2).epsilon(1e-12));
  CHECK(most("M 0 0 l 70.71 70.71") - 1 == Approx(all).epsilon(1e-12));
  // Round a quarter of a circle the mean of |sin 2 theta| is 2 / pi.
  CHECK(tests::plan_of(eased(quarter, 290)).joins[0].segments[0].limits.most - 1 ==
        Approx(all * (0.5 + 1 / std::numbers::pi)).epsilon(1e-9));
}

TEST_CASE("ease is that of its own part of the line where given lengths say which part that is") {
  // 100 mm along the warp, then 100 mm on the bias.
  const auto most = [](const std::string &first, const std::string &second) {
    const Plan plan = tests::plan_of(R"({ "unit": "mm", "joins": [ { "name": "seam", "band": 196,
      "long": { "path": "M 0 0 V 100 l 70.710678118654755 70.710678118654755" }, "segments": [
      { "kind": "ease", )" + first + R"( }, { "kind": "ease", )" +
                                     second + " } ] } ] }");
    return std::array{plan.joins[0].segments[0].limits.most, plan.joins[0].segments[1].limits.most};
  };
  const Plan straight = tests::plan_of(R"({ "unit": "mm", "joins": [ { "name": "seam", "long": 100, "band": 98,
    "segments": [ { "kind": "ease" } ] } ] })");
  const double all = straight.joins[0].segments[0].limits.most - 1;
  const double of_whole = 0.75 * all; // half of it eases by half as much
  const std::string given = R"("long": 100, "band": 98)", found = R"("band": 98)";
  const auto both = most(given, given);
  CHECK(both[0] - 1 == Approx(all / 2).epsilon(1e-9));
  CHECK(both[1] - 1 == Approx(all).epsilon(1e-9));
  const auto second = most(found, given); // reckoned back from the end
  CHECK(second[0] - 1 == Approx(of_whole).epsilon(1e-9));
  CHECK(second[1] - 1 == Approx(all).epsilon(1e-9));
  CHECK(most(given, found)[0] - 1 == Approx(all / 2).epsilon(1e-9));
}

TEST_CASE("by the grain, ease goes where the edge lies on the bias") {
  const Plan plan =
      tests::plan_of(job(quarter, "290", R"({ "kind": "ease", "spread": "grain", "limits": { "most": 1.2 } })"));
  const JoinPlan &join = plan.joins[0];
  // Take-up is mu |sin 2 theta|, of which the whole line makes mu times its length times 2 / pi.
  const double taken = (stitching - 290) / (stitching * 2 / std::numbers::pi);
  for (const Mark &mark : join.marks) {
    const double y = mark.long_edge.exact;
    const double off = taken * 190 / 2 * (1 - std::cos(2 * y / 190));
    CHECK(mark.band.exact == Approx(y - off).margin(1e-7));
  }
}

TEST_CASE("a line along the warp cannot be spread by the grain") {
  const std::string text = job(R"("path": "M 0 0 V 300", "garment": "right")", "290",
                               R"({ "name": "top", "kind": "ease", "spread": "grain" })");
  const PlanOutcome outcome = plan(tests::job_of(text));
  const auto *faults = std::get_if<std::vector<PlacedFault>>(&outcome);
  REQUIRE(faults != nullptr);
  REQUIRE(faults->size() == 1);
  CHECK(tests::path_of(faults->front().place) == "join 0, segment 0, spread");
}

TEST_CASE("both edges of a join may be drawn") {
  const Plan plan = tests::plan_of(
      job(quarter, R"({ "path": "M 0 0 h 150", "allowance": "10 mm", "garment": "left" })", R"({ "kind": "gather" })"));
  const JoinPlan &join = plan.joins[0];
  CHECK(join.band == Approx(150).epsilon(1e-12));
  REQUIRE(join.drawn_band);
  for (const Mark &mark : join.marks) {
    REQUIRE(mark.band.at);
    CHECK((*mark.band.at)[0] == Approx(mark.band.exact).margin(1e-9));
    CHECK((*mark.band.at)[1] == Approx(-10).margin(1e-9)); // left of travel to the right: up the page
    CHECK((*mark.band.normal)[1] == Approx(1).margin(1e-12));
  }
}
