// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/edge/drawn.hpp"

#include "tests/solver/edge/drawing.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <string>

using namespace gatherwright;
using namespace gatherwright::edge;
using namespace gatherwright::tests;

namespace {

DrawnLine drawn(const Drawing &drawing) {
  const auto outcome = DrawnLine::draw(drawing);
  if (!outcome) FAIL(drawing.path << " is not drawn");
  return *outcome;
}

template <class Why> Why undrawn(const Drawing &drawing) {
  const auto outcome = DrawnLine::draw(drawing);
  if (outcome) FAIL(drawing.path << " was drawn");
  const Why *why = std::get_if<Why>(&outcome.fault());
  REQUIRE(why != nullptr);
  return *why;
}

} // namespace

TEST_CASE("lengths are millimetres and places are in the path's unit") {
  // The same edge in inches and in millimetres.
  const DrawnLine inches = drawn({"M 0 0 H 4 A 2 2 0 0 1 6 2 V 5", 25.4, 9.525, Garment::left, 90});
  const DrawnLine metric = drawn({"M 0 0 H 101.6 A 50.8 50.8 0 0 1 152.4 50.8 V 127", 1, 9.525, Garment::left, 90});
  CHECK(inches.cut_edge() == exactly(25.4 * (7 + std::numbers::pi)));
  CHECK(inches.stitching() == exactly(25.4 * (7 + 2.375 * std::numbers::pi / 2)));
  CHECK(metric.stitching() == exactly(inches.stitching()));
  const auto one = inches.place(130), other = metric.place(130);
  CHECK(one.cut == exactly(other.cut));
  CHECK(25.4 * one.at[0] == exactly(other.at[0]));
  CHECK(25.4 * one.at[1] == exactly(other.at[1]));
  REQUIRE(one.normal);
  CHECK((*one.normal)[0] == exactly((*other.normal)[0]));
  CHECK(mean(inches.shear(20, 200)) == exactly(mean(metric.shear(20, 200))));
  CHECK(inches.shear(20, 200).length == exactly(180));
}

TEST_CASE("inside and outside are told by the way a closed path is drawn") {
  const char *clockwise = "M0 0H100V50H0Z", *anticlockwise = "M0 0V50H100V0Z";
  for (const char *path : {clockwise, anticlockwise}) {
    CHECK(drawn({path, 1, 10, Garment::inside, 90}).stitching() == exactly(220));
    CHECK(drawn({path, 1, 10, Garment::outside, 90}).stitching() == exactly(380));
  }
  CHECK(drawn({clockwise, 1, 10, Garment::right, 90}).stitching() == exactly(220));
  CHECK(drawn({anticlockwise, 1, 10, Garment::right, 90}).stitching() == exactly(380));
}

TEST_CASE("the normal points to the cut edge, and only where the garment's side is known") {
  const DrawnLine without = drawn({"M0 0H100", 1, 0, std::nullopt, 90});
  CHECK_FALSE(without.place(50).normal);
  CHECK(without.place(50).cut == exactly(50));
  const DrawnLine left = drawn({"M0 0H100", 1, 0, Garment::left, 90});
  CHECK(*left.place(50).normal == std::array<double, 2>{0, 1});
  CHECK(*drawn({"M0 0H100", 1, 5, Garment::right, 90}).place(50).normal == std::array<double, 2>{0, -1});
}

TEST_CASE("what keeps an edge from being drawn is said") {
  CHECK(undrawn<PathFault>({"M0 0H100#", 1, 0, std::nullopt, 90}).offset == 8);
  CHECK(undrawn<Misdrawn>({"M0 0H100", 1, 10, std::nullopt, 90}) == Misdrawn::no_garment);
  CHECK(undrawn<Misdrawn>({"M0 0H100V50H0V0", 1, 10, Garment::inside, 90}) == Misdrawn::no_inside);
  CHECK(undrawn<Misdrawn>({"M0 0H100H0Z", 1, 10, Garment::inside, 90}) == Misdrawn::encloses_nothing);
  CHECK(undrawn<Misdrawn>({"M0 0H100", 1e-6, 1e6, Garment::left, 90}) == Misdrawn::allowance_too_large);
  CHECK(undrawn<Misdrawn>({"M0 0H100", 1, 0, Garment::left, 90, std::nullopt, most_drawn_pieces}) ==
        Misdrawn::too_many_pieces);
}

TEST_CASE("where there is no stitching line, why and how far along is said") {
  struct Told {
    const char *path;
    double allowance;
    Garment garment;
    Unresolved::Kind kind;
    double along;
  };
  using Kind = Unresolved::Kind;
  std::string teeth = "M0 0";
  for (int i = 0; i < 4000; ++i)
    teeth += "l5 9l5-9";
  for (const Told &told :
       std::vector<Told>{{"M0 0 L100 100 V0 L0 100", 5, Garment::left, Kind::meets_itself, 50 * std::numbers::sqrt2},
                         {"M0 0H5V100", 10, Garment::right, Kind::too_tight, 5},
                         {"M0 0H50H20", 5, Garment::right, Kind::doubles_back, 50},
                         {"M0 0H100V45H110V0H210V100H110V55H100V100H0Z", 8, Garment::right, Kind::falls_apart, 145},
                         {"M0 0H100V60H50V5", 10, Garment::right, Kind::runs_across, -1},
                         {"M0 0H100V15H0Z", 10, Garment::right, Kind::nothing_left, -1},
                         {teeth.c_str(), 2000, Garment::left, Kind::too_tangled, -1}}) {
    CAPTURE(told.path);
    const auto why = undrawn<Unresolved>({told.path, 1, told.allowance, told.garment, 90});
    CHECK(why.kind == told.kind);
    if (told.along >= 0) CHECK(why.along == Approx(told.along));
  }
  CHECK(undrawn<Unresolved>({"M0 0H5V100", 2, 30, Garment::right, 90}).along == Approx(5)); // in the path's unit
}

namespace {

constexpr const char *cap_path =
    "M 0 152 C 30 152 54 126 74 91 C 99 46 134 0 185 0 C 235 0 266 41 289 86 C 309 126 335 152 365 152";

Drawing with_part(Drawing drawing, double from, double to) {
  drawing.part = {from, to};
  return drawing;
}

void check_is_part(const DrawnLine &part, const DrawnLine &whole, double from) {
  const double cut_from = whole.place(from).cut;
  for (int i = 0; i <= 10; ++i) {
    const double y = part.stitching() * i / 10;
    const auto here = part.place(y), there = whole.place(from + y);
    CHECK(here.at[0] == exactly(there.at[0]));
    CHECK(here.at[1] == exactly(there.at[1]));
    CHECK(here.cut == exactly(there.cut - cut_from));
    REQUIRE(here.normal.has_value() == there.normal.has_value());
    if (here.normal) CHECK((*here.normal)[0] == exactly((*there.normal)[0]));
  }
  CHECK(part.cut_edge() == exactly(whole.place(from + part.stitching()).cut - cut_from));
  CHECK(part.mean_shear(2, 9) == exactly(whole.mean_shear(from + 2, from + 9)));
}

} // namespace

TEST_CASE("a part of a drawn edge lies where that stretch of the whole does") {
  for (const Drawing &drawing : {Drawing{cap_path, 1, 10, Garment::right}, Drawing{cap_path, 1, 0, std::nullopt},
                                 Drawing{"M 0 0 H 4 A 2 2 0 0 1 6 2 V 5", 25.4, 9.525, Garment::left}}) {
    const DrawnLine whole = drawn(drawing);
    const DrawnLine part = drawn(with_part(drawing, 30, 120));
    CHECK(part.stitching() == exactly(90));
    CHECK_FALSE(part.closed());
    check_is_part(part, whole, 30);
    const DrawnLine all = drawn(with_part(drawing, 0, whole.stitching()));
    CHECK(all.stitching() == exactly(whole.stitching()));
    CHECK(all.cut_edge() == exactly(whole.cut_edge()));
  }
}

TEST_CASE("a part of a closed edge is open, and parts end to end come to the whole") {
  const Drawing ring{"M 95 0 A 95 95 0 0 1 -95 0 A 95 95 0 0 1 95 0 Z", 1, 10, Garment::outside};
  const DrawnLine whole = drawn(ring);
  CHECK(whole.stitching() == exactly(2 * std::numbers::pi * 105));
  const DrawnLine first = drawn(with_part(ring, 0, 200)), second = drawn(with_part(ring, 200, whole.stitching()));
  CHECK_FALSE(first.closed());
  check_is_part(first, whole, 0);
  CHECK(first.cut_edge() + second.cut_edge() == exactly(whole.cut_edge()));
  CHECK(first.cut_edge() == exactly(200 * 95 / 105.0));
}

TEST_CASE("the outline of a part runs from its first place to its last") {
  const Drawing drawing{cap_path, 1, 10, Garment::right};
  const DrawnLine whole = drawn(drawing), part = drawn(with_part(drawing, 30, 120));
  const auto outline = part.outline(0.02);
  const auto length = [](const std::vector<std::array<double, 2>> &points) {
    double sum = 0;
    for (std::size_t i = 1; i < points.size(); ++i)
      sum += std::hypot(points[i][0] - points[i - 1][0], points[i][1] - points[i - 1][1]);
    return sum;
  };
  CHECK(length(outline.stitching) == Approx(90).epsilon(1e-3));
  CHECK(length(outline.cut_edge) == Approx(part.cut_edge()).epsilon(1e-3));
  for (const std::size_t axis : {0U, 1U}) {
    CHECK(outline.stitching.front()[axis] == exactly(whole.place(30).at[axis]));
    CHECK(outline.stitching.back()[axis] == exactly(whole.place(120).at[axis]));
    // The cut edge lies 10 mm along the normal from it.
    const auto begins = whole.place(30), ends = whole.place(120);
    CHECK(outline.cut_edge.front()[axis] == Approx(begins.at[axis] + 10 * (*begins.normal)[axis]).margin(1e-6));
    CHECK(outline.cut_edge.back()[axis] == Approx(ends.at[axis] + 10 * (*ends.normal)[axis]).margin(1e-6));
  }
}

TEST_CASE("a part that the stitching line does not have is refused with how long that is") {
  const Drawing drawing{"M0 0H100", 1, 10, Garment::left};
  CHECK(undrawn<PartBeyond>(with_part(drawing, 0, 101)).stitching == exactly(100));
  CHECK(undrawn<PartBeyond>(with_part(drawing, 50, 50)).stitching == exactly(100));
  CHECK(undrawn<PartBeyond>(with_part(drawing, 60, 50)).stitching == exactly(100));
  CHECK(drawn(with_part(drawing, 0, 100 * (1 + 1e-12))).stitching() == 100);
}
