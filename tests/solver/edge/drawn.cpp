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
  const Outcome<DrawnLine> outcome = DrawnLine::draw(drawing);
  if (!outcome) FAIL(drawing.path << ": " << outcome.fault().what);
  return *outcome;
}

std::string fault(const Drawing &drawing) {
  const Outcome<DrawnLine> outcome = DrawnLine::draw(drawing);
  if (outcome) FAIL(drawing.path << " was drawn");
  CHECK_FALSE(outcome.fault().instead.empty());
  return outcome.fault().what;
}

bool has(const std::string &text, std::string_view part) {
  return text.find(part) != std::string::npos;
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

TEST_CASE("what a drawn edge lacks is said") {
  CHECK(has(fault({"M0 0H100#", 1, 0, std::nullopt, 90}), "byte 8"));
  CHECK(has(fault({"M0 0H100", 1, 10, std::nullopt, 90}), "side"));
  CHECK(has(fault({"M0 0H100V50H0V0", 1, 10, Garment::inside, 90}), "open"));
  CHECK(has(fault({"M0 0H100H0Z", 1, 10, Garment::inside, 90}), "encloses nothing"));
  CHECK(has(fault({"M0 0H5V100", 2, 30, Garment::right, 90}), "30 mm does not fit"));
  CHECK(has(fault({"M0 0H5V100", 2, 30, Garment::right, 90}), "10 mm along"));
  CHECK(has(fault({"M0 0 L100 100 V0 L0 100", 1, 5, Garment::left, 90}), "crosses"));
  CHECK(has(fault({"M0 0H50H20", 1, 5, Garment::left, 90}), "turns right round 50 mm along"));
  CHECK(has(fault({"M0 0H100", 1e-6, 1e6, Garment::left, 90}), "beyond any edge"));
}

TEST_CASE("every way in which a stitching line can fail says what would be right") {
  struct Told {
    const char *path;
    double allowance;
    Garment garment;
    const char *what, *instead;
  };
  std::string teeth = "M0 0";
  for (int i = 0; i < 4000; ++i)
    teeth += "l5 9l5-9";
  for (const Told &told : std::vector<Told>{
           {"M0 0 L100 100 V0 L0 100", 5, Garment::left, "the drawn edge crosses or touches itself, 70.7 mm along",
            "an edge that does not, where there is an allowance"},
           {"M0 0H5V100", 10, Garment::right,
            "an allowance of 10 mm does not fit inside the curve or corner 5 mm along",
            "a smaller allowance, or a rounder edge there"},
           {"M0 0H50H20", 5, Garment::right, "the edge turns right round 50 mm along", "a point with some angle to it"},
           {"M0 0H100V45H110V0H210V100H110V55H100V100H0Z", 8, Garment::right,
            "an allowance of 8 mm leaves the stitching line in pieces, about 145 mm along",
            "a smaller allowance, or a wider neck there"},
           {"M0 0H100V60H50V5", 10, Garment::right, "the stitching line runs over itself or the cut edge",
            "a smaller allowance, or the garment on the other side"},
           {"M0 0H100V15H0Z", 10, Garment::right,
            "an allowance of 10 mm leaves nothing of the drawn edge to stitch along",
            "a smaller allowance, or the garment on the other side"},
           {teeth.c_str(), 2000, Garment::left, "the drawn edge is too tangled for a stitching line",
            "fewer crossings"}}) {
    const Outcome<DrawnLine> outcome = DrawnLine::draw({told.path, 1, told.allowance, told.garment, 90});
    CAPTURE(told.path);
    REQUIRE_FALSE(outcome);
    CAPTURE(outcome.fault().what);
    CHECK(has(outcome.fault().what, told.what));
    CHECK(outcome.fault().instead == told.instead);
  }
}
