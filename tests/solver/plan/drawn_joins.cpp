// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/draft.hpp"
#include "tests/told.hpp"

#include <array>
#include <cmath>
#include <numbers>
#include <string>
#include <variant>

using namespace gatherwright;
using namespace gatherwright::tests;

namespace {

/// A quarter of a circle of radius 200, convex; the garment lies towards its centre. Then the same from the other end.
const DrawnEdge quarter_circle{.path = "M 0 200 A 200 200 0 0 1 200 0", .garment = Garment::right};
const DrawnEdge quarter_back{.path = "M 200 0 A 200 200 0 0 0 0 200", .garment = Garment::left};

Draft with_cap(DrawnEdge drawn, const EdgeDraft &band, const SegmentDraft &segment) {
  drawn.allowance = mm(10);
  EdgeDraft long_edge(drawn);
  long_edge.ends = {"5 mm", "8 mm"};
  return {.unit = Unit::mm, .joins = {{"cap", long_edge, band, {segment}}}};
}

Draft eased(const DrawnEdge &drawn, double band) {
  return with_cap(drawn, std::to_string(band) + " mm", {.kind = Kind::ease});
}

constexpr double stitching = 190 * std::numbers::pi / 2;

} // namespace

TEST_CASE("marks of a drawn edge stand on its stitching line, and cut places beside them on the cut edge") {
  const Plan plan = plan_of(with_cap(quarter_circle, "100 mm", {}));
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
  const SegmentDraft fade{.spread = Fade{{mm(20), mm(50)}}};
  const SegmentDraft fade_back{.spread = Fade{{mm(50), mm(20)}}};
  const JoinPlan there = plan_of(with_cap(quarter_circle, "150 mm", fade)).joins[0];
  const JoinPlan back = plan_of(with_cap(quarter_back, "150 mm", fade_back)).joins[0];
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
    return plan_of(eased({.path = path, .garment = Garment::right}, 98)).joins[0].segments[0].limits.most;
  };
  const Plan straight =
      plan_of(Draft{.unit = Unit::mm, .joins = {{"seam", "100 mm", "98 mm", {{.kind = Kind::ease}}}}});
  const double all = straight.joins[0].segments[0].limits.most - 1;
  CHECK(most("M 0 0 V 100") - 1 == Approx(all / 2).epsilon(1e-12));
  CHECK(most("M 0 0 H 100") - 1 == Approx(all / 2).epsilon(1e-12));
  CHECK(most("M 0 0 l 70.71 70.71") - 1 == Approx(all).epsilon(1e-12));
  // Round a quarter of a circle the mean of |sin 2 theta| is 2 / pi.
  CHECK(plan_of(eased(quarter_circle, 290)).joins[0].segments[0].limits.most - 1 ==
        Approx(all * (0.5 + 1 / std::numbers::pi)).epsilon(1e-9));
}

TEST_CASE("ease is that of its own part of the line where given lengths say which part that is") {
  // 100 mm along the warp, then 100 mm on the bias.
  const auto most = [](const SegmentDraft &first, const SegmentDraft &second) {
    const Plan plan = plan_of(Draft{.unit = Unit::mm,
                                    .joins = {{"seam",
                                               DrawnEdge{.path = "M 0 0 V 100 l 70.710678118654755 70.710678118654755"},
                                               "196 mm",
                                               {first, second}}}});
    return std::array{plan.joins[0].segments[0].limits.most, plan.joins[0].segments[1].limits.most};
  };
  const Plan straight =
      plan_of(Draft{.unit = Unit::mm, .joins = {{"seam", "100 mm", "98 mm", {{.kind = Kind::ease}}}}});
  const double all = straight.joins[0].segments[0].limits.most - 1;
  const double of_whole = 0.75 * all; // half of it eases by half as much
  const SegmentDraft given{.kind = Kind::ease, .long_edge = "100 mm", .band = "98 mm"};
  const SegmentDraft found{.kind = Kind::ease, .band = "98 mm"};
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
      plan_of(with_cap(quarter_circle, "290 mm", {.kind = Kind::ease, .limits = at_most(1.2), .spread = AlongGrain{}}));
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
  const PlanOutcome outcome = plan(job_of(with_cap({.path = "M 0 0 V 300", .garment = Garment::right}, "290 mm",
                                                   {.name = "top", .kind = Kind::ease, .spread = AlongGrain{}})));
  CHECK(path_of(place_of(only_refusal<refusal::NoShear>(outcome))) == "join 0, segment 0, spread");
}

TEST_CASE("both edges of a join may be drawn") {
  const Plan plan = plan_of(
      with_cap(quarter_circle, DrawnEdge{.path = "M 0 0 h 150", .allowance = mm(10), .garment = Garment::left}, {}));
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

TEST_CASE("an outline keeps within 0.02 mm of its curve, or within a ten-millionth of an edge over 200 m") {
  // A quarter of a circle, in millimetres or in metres; what a chord misses of its arc is its sagitta.
  for (const Unit unit : {Unit::mm, Unit::m}) {
    DrawnEdge drawn = quarter_circle;
    drawn.path_unit = unit;
    drawn.allowance = Length{10 * millimetres(unit)};
    const Draft draft{.unit = Unit::mm, .joins = {{"cap", drawn, std::to_string(150 * millimetres(unit)) + " mm"}}};
    const Plan plan = plan_of(draft, {.outlines = true, .advice = false});
    const DrawnPlan &edge = plan.joins[0].drawn_long.value();
    REQUIRE(edge.outline);
    const double within = std::max(0.02, 1e-7 * edge.cut_edge);
    const auto check = [&](const std::vector<std::array<double, 2>> &points, double radius) {
      REQUIRE(points.size() > 2);
      for (std::size_t i = 0; i < points.size(); ++i) {
        CHECK(std::hypot(points[i][0] - 200, points[i][1] - 200) == Approx(radius).epsilon(1e-9));
        if (i == 0) continue;
        const double half = std::hypot(points[i][0] - points[i - 1][0], points[i][1] - points[i - 1][1]) / 2;
        CHECK((radius - std::sqrt(radius * radius - half * half)) * millimetres(unit) <= within * (1 + 1e-9));
      }
    };
    check(edge.outline->cut_edge, 200);
    check(edge.outline->stitching, 190);
  }
}
