// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/edge/shear.hpp"
#include "solver/edge/drawn.hpp"

#include "tests/solver/edge/drawing.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <string_view>

using namespace gatherwright;
using namespace gatherwright::edge;
using namespace gatherwright::tests;

namespace {

using std::numbers::pi;

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

namespace {

bool same_bits(const Shear &one, const Shear &other) {
  return one.length == other.length && one.pieces.size() == other.pieces.size() &&
         std::equal(one.pieces.begin(), one.pieces.end(), other.pieces.begin(), [](const auto &a, const auto &b) {
           return a.start == b.start && a.length == b.length && a.coefficients == b.coefficients;
         });
}

/// Curves, straight parts, corners and cusps.
constexpr const char *paths[] = {"M 0 0 C 20 -120 90 -160 160 -160 S 300 -120 320 0",
                                 "M0 0H100V40C100 80 140 80 180 80", "M 300 0 A 300 100 20 0 1 -300 0",
                                 "M0 0 q 5 10 10 0 q 5 -10 10 0 h 7 q 5 10 10 0", "M0 0 l 30 40 l 20 -10"};

} // namespace

TEST_CASE("shear reckoned once is, to the bit, the shear reckoned anew, whatever stretch is asked for") {
  for (const char *path : paths) {
    for (const double allowance : {0.0, 4.0}) {
      if (allowance > 0 && std::string_view(path).find('q') != std::string_view::npos) continue; // too sharp a bend
      const StitchingLine line = line_of(path, allowance, Side::right);
      const Point warp = warp_direction(75);
      const auto table = ShearTable::of(line, warp, 100'000);
      REQUIRE(table);
      const double whole = line.length();
      for (int from = 0; from < 24; ++from)
        for (int to = from + 1; to <= 24; ++to) {
          const double begins = whole * from / 24;
          const double ends = to == 24 ? whole : whole * to / 24;
          CAPTURE(path, allowance, begins, ends);
          CHECK(same_bits(shear_along(line, begins, ends, warp, &*table), shear_along(line, begins, ends, warp)));
        }
    }
  }
}

TEST_CASE("a table of shear is of so many pieces or is not made") {
  const StitchingLine line = line_of(paths[0], 10, Side::right);
  const Point warp = warp_direction(90);
  const auto table = ShearTable::of(line, warp, 100'000);
  REQUIRE(table);
  CHECK(table->size() == whole(line, 90).pieces.size()); // curved throughout
  CHECK(ShearTable::of(line, warp, table->size()));
  CHECK_FALSE(ShearTable::of(line, warp, table->size() - 1));
  const auto of_straight = ShearTable::of(line_of("M0 0L50 60", 0, Side::right), warp, 1);
  REQUIRE(of_straight);
  CHECK(of_straight->size() == 1);
}

TEST_CASE("curves that are cut off where they meet inside a corner count for a table as whole ones do") {
  // Scallops; on one side the stitching line loses their ends, on the other it goes round their corners.
  std::string path = "M0 0";
  for (int i = 0; i < 30; ++i)
    path += " q 5 5 10 0";
  for (const Side side : {Side::left, Side::right}) {
    const StitchingLine line = line_of(path, 0.5, side);
    const auto table = ShearTable::of(line, warp_direction(90), 100'000);
    REQUIRE(table);
    CHECK(table->size() >= 60); // it rises and falls along each
    CHECK_FALSE(ShearTable::of(line, warp_direction(90), 59));
    for (int from = 0; from < 40; ++from) {
      const double begins = line.length() * from / 40;
      CHECK(same_bits(shear_along(line, begins, line.length(), warp_direction(90), &*table),
                      shear_along(line, begins, line.length(), warp_direction(90))));
    }
  }
}

TEST_CASE("a stretch that is told to shear for certain has a mean that says so") {
  int certain = 0;
  int sheared = 0;
  for (const char *path : paths) {
    const StitchingLine line = line_of(path, 0, Side::right);
    for (const double grain : {0.0, 45.0, 75.0}) {
      const auto table = ShearTable::of(line, warp_direction(grain), 100'000);
      REQUIRE(table);
      for (int from = 0; from < 24; ++from) {
        const double begins = line.length() * from / 24;
        const double ends = from % 2 == 0 ? line.length() : line.length() * (from + 1) / 24;
        const bool shears = mean(shear_along(line, begins, ends, warp_direction(grain))) > no_shear;
        sheared += shears ? 1 : 0;
        if (!table->surely_shears(begins, ends)) continue;
        ++certain;
        CHECK(shears);
      }
    }
  }
  CHECK(certain > 20);
  CHECK(certain <= sheared);
}

TEST_CASE("a drawn edge made ready gives what it gave before, and takes its pieces off what is left") {
  for (const char *path : paths) {
    const auto plain = DrawnLine::draw({.path = path, .unit = 10, .garment = std::nullopt, .grain = 75});
    REQUIRE(plain);
    DrawnLine ready = *plain;
    std::size_t left = 5000;
    REQUIRE(ready.expect_shear(left));
    CHECK(ready.shear_expected());
    CHECK_FALSE(plain->shear_expected());
    const std::size_t taken = 5000 - left;
    const double whole = plain->stitching();
    for (const auto &[from, to] : {std::pair(0.0, whole), std::pair(0.0, whole / 3), std::pair(whole / 7, whole / 2),
                                   std::pair(whole / 2, whole)}) {
      CAPTURE(path, from, to);
      CHECK(same_bits(ready.shear(from, to), plain->shear(from, to)));
      CHECK(ready.mean_shear(from, to) == plain->mean_shear(from, to));
      CHECK(ready.shears(from, to) == plain->shears(from, to));
    }
    std::size_t again = 1;
    CHECK(ready.expect_shear(again)); // it is ready: nothing more is taken
    CHECK(again == 1);
    if (taken == 0) continue;
    DrawnLine refused = *plain;
    std::size_t too_few = taken - 1;
    CHECK_FALSE(refused.expect_shear(too_few));
    CHECK(too_few == taken - 1);
    CHECK_FALSE(refused.shear_expected());
  }
}
