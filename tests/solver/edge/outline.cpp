// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/edge/drawn.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>

using namespace gatherwright;
using edge::DrawnLine;

namespace {

using Points = std::vector<std::array<double, 2>>;

double distance_to(const Points &points, const std::array<double, 2> &at) {
  double best = HUGE_VAL;
  for (std::size_t i = 1; i < points.size(); ++i) {
    const double dx = points[i][0] - points[i - 1][0];
    const double dy = points[i][1] - points[i - 1][1];
    const double along = ((at[0] - points[i - 1][0]) * dx + (at[1] - points[i - 1][1]) * dy) / (dx * dx + dy * dy);
    const double share = std::clamp(std::isfinite(along) ? along : 0.0, 0.0, 1.0);
    best = std::min(best, std::hypot(points[i - 1][0] + share * dx - at[0], points[i - 1][1] + share * dy - at[1]));
  }
  return best;
}

double length(const Points &points) {
  double sum = 0;
  for (std::size_t i = 1; i < points.size(); ++i)
    sum += std::hypot(points[i][0] - points[i - 1][0], points[i][1] - points[i - 1][1]);
  return sum;
}

DrawnLine drawn(const std::string &path, double unit, double allowance, Garment garment) {
  auto line = DrawnLine::draw({path, unit, allowance, garment, 90});
  REQUIRE(line);
  return *std::move(line);
}

} // namespace

TEST_CASE("an outline keeps within 0.02 mm of its curve, and its length tells the same") {
  struct Case {
    std::string path;
    double unit;
    double allowance;
    Garment garment;
  };
  for (const Case &each : {Case{"M 0 0 C 0 70 40 110 95 110 S 190 70 190 0", 1, 10, Garment::right},
                           Case{"M 0 0 C 20 -120 90 -160 160 -160 S 300 -120 320 0", 1, 10, Garment::right},
                           Case{"M 0 0 h 20 a 10 10 0 0 0 10 -10 v -15", 10, 10, Garment::left},
                           Case{"M 0 0 L 80 0 L 80 60 L 200 60", 1, 12, Garment::left},
                           Case{"M 0 0 L 80 0 L 80 60 L 200 60", 1, 12, Garment::right},
                           Case{"M 95 0 A 95 95 0 0 1 -95 0 A 95 95 0 0 1 95 0 Z", 1, 10, Garment::outside},
                           Case{"M 0 0 H 100 V 70 H 0 Z", 1, 10, Garment::outside},
                           Case{"M 0 0 C 60 80 20 -80 90 0", 1, 0, Garment::left}}) {
    INFO(each.path);
    const DrawnLine line = drawn(each.path, each.unit, each.allowance, each.garment);
    const auto outline = line.outline(0.02);
    double farthest = 0;
    constexpr int places = 2000;
    for (int i = 0; i <= places; ++i)
      farthest = std::max(farthest, distance_to(outline.stitching, line.place(line.stitching() * i / places).at));
    CHECK(farthest * each.unit <= 0.02);
    // Chords are shorter than what they span: by 8/3 of the square of their sag over their length, a few to a curve.
    CHECK(length(outline.stitching) * each.unit == Approx(line.stitching()).epsilon(1e-4));
    CHECK(length(outline.cut_edge) * each.unit == Approx(line.cut_edge()).epsilon(1e-4));
    CHECK(outline.stitching.size() < 400);
  }
}

TEST_CASE("the outline of a circle has its points on it") {
  const DrawnLine line = drawn("M 95 0 A 95 95 0 0 1 -95 0 A 95 95 0 0 1 95 0 Z", 1, 10, Garment::outside);
  const auto outline = line.outline(0.02);
  for (const auto &[x, y] : outline.cut_edge)
    CHECK(std::hypot(x, y) == Approx(95).epsilon(1e-9));
  for (const auto &[x, y] : outline.stitching)
    CHECK(std::hypot(x, y) == Approx(105).epsilon(1e-9));
}
