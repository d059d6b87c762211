// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/mapped_path.hpp"

#include "tests/solver/edge/drawing.hpp"

#include <catch2/catch.hpp>

#include <numbers>

using namespace gatherwright;
using namespace gatherwright::tests;

namespace {

std::string mapped(std::string_view path, const AffineMap &map) {
  const auto made = mapped_path(path, map);
  if (!made) FAIL(path << ": " << made.fault().what);
  return *made;
}

edge::Point image(const AffineMap &map, edge::Point of) {
  return {map.a * of.x + map.c * of.y + map.e, map.b * of.x + map.d * of.y + map.f};
}

} // namespace

TEST_CASE("mapped path data draws what the map makes of each point of the line") {
  const AffineMap maps[] = {{},
                            {25.4 / 96, 0, 0, 25.4 / 96, 3, -4},
                            {0.8, 0.6, -0.6, 0.8, 10, 20}, // turned
                            {-1, 0, 0, 1, 0, 0},           // seen in a mirror
                            {2, 0.3, -1.1, 0.7, 5, 1},
                            {1, 0, 40, 1, 0, 0}}; // a skew that makes an ellipse 1600 times as long as wide
  const char *paths[] = {"M 10 10 H 60 V 40 C 60 80 20 90 10 60 Q 0 40 10 20", "M 0 0 A 30 30 0 0 1 60 0",
                         "M 0 0 A 40 20 30 1 0 50 10 A 5 9 0 0 1 60 0",
                         "M 50 0 A 50 50 0 1 1 -50 0 A 50 50 0 1 1 50 0 Z", "M 0 0 L 40 5 L 20 60 Z"};
  for (const AffineMap &map : maps)
    for (const char *path : paths) {
      INFO(path << " by " << map.a << " " << map.b << " " << map.c << " " << map.d);
      const edge::Curve before = curve_of(path), after = curve_of(mapped(path, map));
      CHECK(before.closed == after.closed);
      // The same shares of each piece's own parameter, those of arcs that were parted put together again.
      const auto there = polyline(after, edge::measure(after).back().length / 20000);
      for (const edge::Span &span : edge::measure(before))
        for (const double t : {0.0, 0.3, 0.7, 1.0}) {
          const edge::Point expected = image(map, edge::Shape(before, span).at(t));
          CHECK(distance_to(there, expected) < 1e-4 * (1 + edge::measure(after).back().start));
        }
    }
}

TEST_CASE("the lengths of mapped lines are as the map has them") {
  // A similarity scales every length.
  const AffineMap half{0.3, 0.4, -0.4, 0.3, 7, 9};
  for (const char *path :
       {"M 0 0 A 40 20 30 1 0 50 10", "M 0 0 A 30 30 0 0 1 60 0", "M 0 0 C 10 40 80 -20 90 30 L 99 99"})
    CHECK(length_of(mapped(path, half)) == exactly(length_of(path) / 2));
  // An ellipse is a circle that is stretched.
  const std::string ellipse = mapped("M 10 0 A 10 10 0 0 1 -10 0 A 10 10 0 0 1 10 0 Z", {12, 0, 0, 7, 0, 0});
  CHECK(length_of(ellipse) == exactly(length_of("M 120 0 A 120 70 0 0 1 -120 0 A 120 70 0 0 1 120 0 Z")));
  // Half a circle, whose ends alone hardly say where its centre is, seen turned by what is no round figure.
  const double c = std::cos(0.7), s = std::sin(0.7);
  CHECK(length_of(mapped("M 0 0 A 30 30 0 0 1 60 0", {c, s, -s, c, 1000.1, 0})) == exactly(30 * std::numbers::pi));
}

TEST_CASE("maps go one after another") {
  const AffineMap scaled{2, 0, 0, 3, 0, 0}, moved{1, 0, 0, 1, 10, 20};
  CHECK(scaled * moved == AffineMap{2, 0, 0, 3, 20, 60});
  CHECK(moved * scaled == AffineMap{2, 0, 0, 3, 10, 20});
}

TEST_CASE("a map that leaves nothing or leads too far is refused, and so is what is no path") {
  CHECK(mapped_path("M 0 0 L 9 0", {1, 1, 1, 1, 0, 0}).fault().what == "its transforms leave no area of anything");
  CHECK(mapped_path("M 0 0 L 9 0", {0, 0, 0, 0, 0, 0}).fault().what == "its transforms leave no area of anything");
  CHECK(mapped_path("M 0 0 L 9 0", {1e300, 0, 0, 1e300, 0, 0}).fault().what == "it reaches further than 10 km");
  CHECK(mapped_path("M 0 0 L 9 0", {HUGE_VAL, 0, 0, 1, 0, 0}).fault().what == "its transforms come to no numbers");
  CHECK(mapped_path("M 0 0 L", {}).fault().what.find("the path goes wrong at byte 7") == 0);
}
