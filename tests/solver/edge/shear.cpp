// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/edge/shear.hpp"

#include "tests/solver/edge/drawing.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

using namespace gatherwright;
using namespace gatherwright::edge;
using namespace gatherwright::tests;

namespace {

constexpr double pi = std::numbers::pi;

Shear whole(const StitchingLine &line, double grain) {
  return shear_along(line, 0, line.length(), warp_direction(grain));
}

/// |sin 2 theta| from the normal at a place.
double sampled(const StitchingLine &line, double y, Point warp) {
  const Point normal = line.place(y).normal;
  return 2 * std::abs(dot(normal, warp) * cross(normal, warp));
}

} // namespace

TEST_CASE("the warp runs anticlockwise from the x axis as seen on the page") {
  CHECK(warp_direction(0) == Point{1, 0});
  CHECK(warp_direction(90) == Point{0, -1}); // up the page
  CHECK(warp_direction(180) == Point{-1, 0});
  CHECK(warp_direction(-90) == Point{0, 1});
  CHECK(warp_direction(450) == Point{0, -1});
  CHECK(norm(warp_direction(45) - Point{std::sqrt(0.5), -std::sqrt(0.5)}) < 1e-15);
  CHECK(norm(warp_direction(-300) - Point{0.5, -std::sqrt(0.75)}) < 1e-14);
}

TEST_CASE("straight edges shear as their angle to the warp says") {
  const auto shear = [](const char *path, double grain) { return mean(whole(line_of(path, 0, Side::left), grain)); };
  CHECK(shear("M0 0H100", 90) == 0);
  CHECK(shear("M0 0V100", 90) == 0);
  CHECK(shear("M0 0L100 100", 90) == exactly(1));
  CHECK(shear("M0 0L100 -100", 0) == exactly(1));
  CHECK(shear("M0 0H100", 30) == exactly(std::sin(pi / 3)));
  CHECK(shear("M0 0L100 -57.735026918962576", 30) == Approx(0).margin(1e-12)); // along the warp
  CHECK(shear("M0 0L100 -57.735026918962576", 75) == exactly(1));
  CHECK(shear("M0 0h30l60 60h30", 90) == exactly(std::sqrt(7200) / (std::sqrt(7200) + 60)));
}

TEST_CASE("round a circle the mean shear is 2 / pi, on the edge as beside it") {
  const char *ring = "M 95 0 A 95 95 0 0 1 -95 0 A 95 95 0 0 1 95 0 Z";
  for (const double allowance : {0.0, 10.0}) {
    for (const double grain : {90.0, 17.0}) {
      const StitchingLine line = line_of(ring, allowance, Side::left);
      const Shear shear = whole(line, grain);
      CHECK(shear.length == exactly(line.length()));
      CHECK(mean(shear) == exactly(2 / pi));
    }
  }
  // A quarter from the top on: |sin 2 theta| integrates to (1 - cos 2 theta) / 2.
  const StitchingLine line = line_of(ring, 10, Side::left);
  const Shear shear = whole(line, 90);
  const double theta = 0.3;
  CHECK(integral(shear, 0, 105 * theta) == exactly(105 * (1 - std::cos(2 * theta)) / 2));
  CHECK(integral(shear, 20, 90) == exactly(integral(shear, 0, 90) - integral(shear, 0, 20)));
}

TEST_CASE("the tabulated shear is that of the line everywhere, and monotone in each piece") {
  struct Case {
    const char *path;
    double allowance;
    Side side;
  };
  for (const Case &c : {Case{"M 0 0 C 20 -120 90 -160 160 -160 S 300 -120 320 0", 10, Side::right},
                        Case{"M 0 0 C 0 70 40 110 95 110 S 190 70 190 0", 10, Side::right},
                        Case{"M0 0H100V40C100 80 140 80 180 80", 10, Side::left},
                        Case{"M 300 0 A 300 100 20 0 1 -300 0", 60, Side::right},
                        Case{"M0 0C40 0 60 50 100 50 S 160 0 200 20", 15, Side::left}}) {
    CAPTURE(c.path);
    const StitchingLine line = line_of(c.path, c.allowance, c.side);
    const Point warp = warp_direction(80);
    const Shear shear = shear_along(line, 0, line.length(), warp);
    CHECK(shear.pieces.size() < 400);
    double at = 0;
    for (const Shear::Piece &piece : shear.pieces) {
      CHECK(piece.start == exactly(at));
      at = piece.start + piece.length;
      const bool rises = value(piece, at) >= value(piece, piece.start);
      double before = value(piece, piece.start);
      for (int i = 1; i <= 20; ++i) {
        const double here = value(piece, piece.start + piece.length * i / 20);
        CHECK((rises ? here - before : before - here) > -1e-10);
        before = here;
      }
    }
    CHECK(at == exactly(shear.length));
    double sum = 0;
    const int parts = 4000;
    for (int i = 0; i < parts; ++i) {
      const double y = line.length() * (i + 0.5) / parts;
      const double expected = sampled(line, y, warp);
      if (i % 7 == 0) CHECK(value(shear, y) == Approx(expected).margin(2e-9));
      sum += expected;
    }
    CHECK(mean(shear) == Approx(sum / parts).epsilon(1e-4)); // midpoints, and the jumps at corners
  }
}

TEST_CASE("an ellipse as thin as a thread is tabulated in few pieces") {
  const StitchingLine line = line_of("M300 0A340 100 20 0 01 0A3011001 2 0 10650 10", 0, Side::right);
  const Shear shear = whole(line, 90);
  CHECK(shear.pieces.size() < 1000);
  CHECK(shear.length == exactly(line.length()));
}

TEST_CASE("the shear of a part is that part of the whole") {
  const StitchingLine line = line_of("M 0 0 C 20 -120 90 -160 160 -160 S 300 -120 320 0", 10, Side::right);
  const Shear all = whole(line, 60), part = shear_along(line, 100, 260, warp_direction(60));
  CHECK(part.length == exactly(160));
  for (const double y : {0.0, 3.0, 77.7, 160.0})
    CHECK(value(part, y) == Approx(value(all, 100 + y)).margin(1e-9));
  CHECK(integral(part, 0, 160) == exactly(integral(all, 100, 260)));
}

TEST_CASE("a symmetrical cap shears symmetrically on the straight grain") {
  const StitchingLine line = line_of("M 0 0 C 20 -120 90 -160 160 -160 S 300 -120 320 0", 10, Side::right);
  const Shear shear = whole(line, 90);
  for (const double y : {0.0, 50.0, 133.0, 200.0})
    CHECK(value(shear, y) == Approx(value(shear, line.length() - y)).margin(1e-9));
  CHECK(value(shear, line.length() / 2) == Approx(0).margin(1e-9)); // level at the top
}
