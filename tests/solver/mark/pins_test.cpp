// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/mark/pins.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <random>
#include <vector>

using namespace gatherwright;
using gatherwright::mark::found_by_folding;
using gatherwright::mark::pin_count;

namespace {

std::vector<double> pins(double band, Kind kind, const PinMarks &rule) {
  const gatherwright::mark::Pins found(band, kind, rule);
  std::vector<double> places;
  for (std::size_t i = 0; i < found.size(); ++i)
    places.push_back(found[i]);
  return places;
}

PinMarks apart(double distance, bool halves) {
  return PinsApart{Length{distance}, halves};
}
PinMarks parts(int count) {
  return PinsAtParts{count};
}
PinMarks every(double distance) {
  return PinsEvery{Length{distance}};
}

} // namespace

TEST_CASE("parts are exact fractions of the band") {
  CHECK(pins(220, Kind::gather, parts(4)) == std::vector<double>{55, 110, 165});
  CHECK(pins(1, Kind::ease, parts(3)) == std::vector<double>{1.0 / 3, 2.0 / 3});
  CHECK(pins(220, Kind::gather, parts(1)).empty());
  std::mt19937_64 random(51);
  std::uniform_real_distribution<double> any(1, 1000);
  for (int round = 0; round < 200; ++round) {
    const double band = any(random);
    const int count = 1 + static_cast<int>(random() % 200);
    const auto places = pins(band, Kind::gauge, parts(count));
    REQUIRE(places.size() == static_cast<std::size_t>(count) - 1);
    for (int i = 1; i < count; ++i) {
      const long double exact = static_cast<long double>(band) * i / count;
      // Two roundings, each by half a unit in the last place.
      REQUIRE(std::abs(places[static_cast<std::size_t>(i) - 1] - exact) <= 2.3e-16L * exact);
    }
  }
}

TEST_CASE("apart takes the fewest parts that are no longer") {
  CHECK(pins(350, Kind::gather, apart(50, false)).size() == 6);
  CHECK(pins(351, Kind::gather, apart(50, false)).size() == 7);
  CHECK(pins(50, Kind::gather, apart(50, false)).empty());
  CHECK(pins(49, Kind::gather, apart(50, true)).empty());
  CHECK(pins(400, Kind::gather, apart(50, true)).size() == 7);
  CHECK(pins(401, Kind::gather, apart(50, true)).size() == 15);
  CHECK(pins(150, Kind::gather, apart(50, true)).size() == 3);
  // Lengths that make whole parts, though not in doubles.
  CHECK(2.1 / 0.3 > 7);
  CHECK(pins(2.1, Kind::gather, apart(0.3, false)).size() == 6);
  CHECK(pins(350 * (1 + 9e-10), Kind::gather, apart(50, false)).size() == 6);
  CHECK(pins(350 * (1 + 2e-9), Kind::gather, apart(50, false)).size() == 7);
  std::mt19937_64 random(52);
  std::uniform_real_distribution<double> any(1, 500);
  for (int round = 0; round < 2000; ++round) {
    const double band = any(random);
    const double distance = any(random);
    const double count = pin_count(band, Kind::gather, apart(distance, false)) + 1;
    REQUIRE(band / count <= distance * (1 + 1e-9));
    if (count > 1) REQUIRE(band / (count - 1) > distance);
    const double halves = pin_count(band, Kind::gather, apart(distance, true)) + 1;
    REQUIRE(halves >= count);
    REQUIRE(halves / 2 < count);
    REQUIRE(std::exp2(std::round(std::log2(halves))) == halves);
  }
}

TEST_CASE("every distance leaves a last gap of half to one and a half of it") {
  CHECK(pins(190, Kind::gather, every(40)) == std::vector<double>{40, 80, 120, 160});
  CHECK(pins(179, Kind::gather, every(40)) == std::vector<double>{40, 80, 120});
  CHECK(pins(180, Kind::gather, every(40)) == std::vector<double>{40, 80, 120, 160}); // the last gap just half
  CHECK(pins(180 * (1 - 5e-10), Kind::gather, every(40)).size() == 4);
  CHECK(pins(59, Kind::gather, every(40)).empty());
  CHECK(pins(60, Kind::gather, every(40)) == std::vector<double>{40});
  CHECK(pins(10, Kind::gather, every(40)).empty());
  std::mt19937_64 random(53);
  std::uniform_real_distribution<double> any(1, 500);
  for (int round = 0; round < 2000; ++round) {
    const double distance = any(random);
    const double band = distance * (0.5 + any(random));
    const double last = band - pin_count(band, Kind::gather, every(distance)) * distance;
    REQUIRE(last >= distance / 2 - 1e-9 * band);
    REQUIRE(last < 1.5 * distance);
  }
}

TEST_CASE("a drawn casing is pinned at its quarters and a flat stretch nowhere") {
  CHECK(pins(600, Kind::draw, every(40)) == std::vector<double>{150, 300, 450});
  CHECK(pins(600, Kind::draw, parts(7)) == std::vector<double>{150, 300, 450});
  CHECK(pins(600, Kind::flat, parts(4)).empty());
  CHECK(pin_count(600, Kind::draw, parts(7)) == 3);
  CHECK(pin_count(600, Kind::flat, parts(4)) == 0);
}

TEST_CASE("pins beyond counting are counted but not laid out") {
  CHECK(pin_count(1e9, Kind::gather, every(1e-9)) == Approx(1e18));
  CHECK(pin_count(1e9, Kind::gather, apart(1e-290, true)) > 1e298);
  CHECK(std::isinf(pin_count(1e300, Kind::gather, apart(1e-300, true))));
  CHECK(pins(1e9, Kind::gather, every(1e-9)).empty());
  CHECK(pins(1e300, Kind::gather, apart(1e-300, true)).empty());
  CHECK(pins(1, Kind::gather, parts(std::numeric_limits<int>::max())).empty());
  CHECK(pins(1, Kind::gather, parts(0)).empty());
}

TEST_CASE("folding in halves finds a power of two of equal parts, spread evenly") {
  CHECK(found_by_folding(220, Kind::gather, parts(4), true));
  CHECK(found_by_folding(220, Kind::gather, parts(2), true));
  CHECK(found_by_folding(220, Kind::gather, apart(60, true), true));
  CHECK(found_by_folding(220, Kind::gather, apart(60, false), true)); // four parts as it happens
  CHECK(found_by_folding(220, Kind::draw, parts(3), true));
  CHECK_FALSE(found_by_folding(220, Kind::gather, parts(6), true));
  CHECK_FALSE(found_by_folding(220, Kind::gather, parts(1), true));
  CHECK_FALSE(found_by_folding(220, Kind::gather, parts(4), false));
  CHECK_FALSE(found_by_folding(220, Kind::gather, every(55), true));
  CHECK_FALSE(found_by_folding(220, Kind::flat, parts(4), true));
}
