// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/spread/grain.hpp"

#include "tests/solver/edge/drawing.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <vector>

using namespace gatherwright;
using namespace gatherwright::spread;
using namespace gatherwright::tests;

namespace {

edge::Shear shear_of(const char *path, double grain) {
  const edge::StitchingLine line = line_of(path, 0, edge::Side::left);
  return edge::shear_along(line, 0, line.length(), edge::warp_direction(grain));
}

const char *const cap = "M 0 0 C 20 -120 90 -160 160 -160 S 300 -120 320 0";
const char *const straight_and_bias = "M 0 0 h 50 l 80 80 h 50"; // along the weft, 45 degrees, along the weft
const char *const quarter = "M 0 0 A 100 100 0 0 1 100 100";

/// What every spread promises, and its own mu checked against the shear sampled.
void check_promises(const GrainSpread &spread, const edge::Shear &shear, double cap_on_fullness) {
  CHECK(spread.map(0) == 0);
  CHECK(spread.map(spread.band()) == exactly(spread.long_length()));
  const int parts = 500;
  double before = 0, x_before = 0;
  for (int i = 1; i <= parts; ++i) {
    const double x = spread.band() * i / parts;
    const double y = spread.map(x);
    CHECK(y > before);
    CHECK(spread.band_at(y) == Approx(x).epsilon(1e-9).margin(1e-9));
    const double r = spread.fullness(x);
    CHECK(r >= 1 - 1e-12);
    CHECK(r <= cap_on_fullness * (1 + 1e-9));
    before = y;
    x_before = x;
  }
  CHECK(x_before == exactly(spread.band()));
  // The slope of the map is the fullness.
  for (const double part : {0.11, 0.37, 0.62, 0.93}) {
    const double x = part * spread.band(), step = 1e-5 * spread.band();
    CHECK((spread.map(x + step) - spread.map(x - step)) / (2 * step) == Approx(spread.fullness(x)).epsilon(1e-4));
  }
  CHECK(shear.length == exactly(spread.long_length()));
}

/// The band left by take-up min(mu q, room), by the midpoint rule.
double band_by_sampling(const edge::Shear &shear, double mu, double room) {
  const int parts = 200000;
  double sum = 0;
  for (int i = 0; i < parts; ++i) {
    sum += 1 - std::min(mu * edge::value(shear, shear.length * (i + 0.5) / parts), room);
  }
  return sum * shear.length / parts;
}

} // namespace

TEST_CASE("by grain, a quarter circle takes up as the sine of twice its angle") {
  // c = mu sin 2a over a length of 100 da: x = 100 (a - mu (1 - cos 2a) / 2), mu from the total.
  const edge::Shear shear = shear_of(quarter, 90);
  const double length = 50 * std::numbers::pi, band = length / 1.05;
  const double mu = (length - band) / 100;
  const GrainSpread spread(shear, band, 2, 5);
  CHECK_FALSE(spread.capped());
  CHECK_FALSE(spread.past_most());
  for (const double a : {0.2, 0.5, 0.9, 1.4}) {
    const double x = 100 * (a - mu * (1 - std::cos(2 * a)) / 2);
    CHECK(spread.band_at(100 * a) == exactly(x));
    CHECK(spread.map(x) == exactly(100 * a));
    CHECK(spread.fullness(x) == exactly(1 / (1 - mu * std::sin(2 * a))));
  }
  CHECK(spread.fullest() == exactly(1 / (1 - mu)));
  CHECK(spread.slackest() == exactly(1)); // the shear falls to 0 at both ends
  check_promises(spread, shear, 2);
}

TEST_CASE("by grain, a capped quarter circle keeps its total") {
  // Capped at C from a0 to pi/2 - a0, mu sin 2 a0 = C: what is taken up is 100 (mu (1 - cos 2 a0) + C (pi/2 - 2 a0)).
  const edge::Shear shear = shear_of(quarter, 90);
  const double most = 1.08, room = 1 - 1 / most, a0 = 0.4;
  const double mu = room / std::sin(2 * a0);
  const double taken = 100 * (mu * (1 - std::cos(2 * a0)) + room * (std::numbers::pi / 2 - 2 * a0));
  const double band = 50 * std::numbers::pi - taken;
  const GrainSpread spread(shear, band, most, 3);
  CHECK(spread.capped());
  CHECK_FALSE(spread.past_most());
  CHECK(spread.fullest() == exactly(most));
  CHECK(spread.slackest() == exactly(1));
  const double x0 = 100 * (a0 - mu * (1 - std::cos(2 * a0)) / 2);
  CHECK(spread.band_at(100 * a0) == exactly(x0));
  CHECK(spread.fullness(x0 * 0.999) < most);
  CHECK(spread.fullness(x0 * 1.001) == exactly(most));
  CHECK(spread.fullness(band / 2) == exactly(most));
  check_promises(spread, shear, most);
}

TEST_CASE("by grain, only the part on the bias takes up") {
  const edge::Shear shear = shear_of(straight_and_bias, 90);
  const double bias = std::sqrt(12800), length = 100 + bias;
  const GrainSpread spread(shear, length - 10, 1.2, 3);
  CHECK(spread.map(50) == exactly(50));
  CHECK(spread.map(50 + (bias - 10) / 2) == exactly(50 + bias / 2));
  CHECK(spread.map(length - 10 - 50) == exactly(length - 50));
  CHECK(spread.fullest() == exactly(bias / (bias - 10)));
  CHECK(spread.slackest() == exactly(bias / (bias - 10)));
  check_promises(spread, shear, 1.2);
}

TEST_CASE(
    "by grain, what the bias cannot hold at most is capped at packed, and beyond that the straight part fills evenly") {
  const edge::Shear shear = shear_of(straight_and_bias, 90);
  const double bias = std::sqrt(12800), length = 100 + bias;
  // Half the bias part taken up is 2 to 1, beyond a most of 1.5; the whole is 1.36 to 1.
  const GrainSpread packed(shear, 100 + bias / 2, 1.5, 3);
  CHECK(packed.past_most());
  CHECK_FALSE(packed.capped());
  CHECK(packed.fullest() == exactly(2));
  check_promises(packed, shear, 3);
  // The bias part at 3 to 1 leaves 100 + bias / 3; 20 less than that comes evenly off the straight parts.
  const GrainSpread filled(shear, 80 + bias / 3, 1.5, 3);
  CHECK(filled.past_most());
  CHECK(filled.fullest() == exactly(3));
  CHECK(filled.slackest() == exactly(3));
  CHECK(filled.fullness(10) == exactly(100.0 / 80));
  CHECK(filled.map(40) == exactly(50));
  check_promises(filled, shear, 3);
  CHECK(length > 0);
}

TEST_CASE("by grain, less cloth than band, more than packed takes, or no shear at all is even") {
  const edge::Shear shear = shear_of(cap, 90);
  for (const double band : {shear.length * 1.1, shear.length / 5}) {
    const GrainSpread spread(shear, band, 1.1, 4);
    CHECK(spread.fullest() == exactly(shear.length / band));
    CHECK(spread.slackest() == exactly(shear.length / band));
    CHECK(spread.map(band / 3) == exactly(shear.length / 3));
  }
  const edge::Shear none = shear_of("M 0 0 H 120", 90);
  CHECK_FALSE(shears(none));
  CHECK(shears(shear));
  CHECK(GrainSpread(none, 100, 2, 4).map(50) == exactly(60));
}

TEST_CASE("by grain, a cap of cubics keeps its total, capped and not") {
  for (const double grain : {90.0, 70.0, 45.0}) {
    const edge::Shear shear = shear_of(cap, grain);
    for (const double fullness : {1.0, 1.001, 1.04, 1.06}) {
      const double most = 1.09;
      CAPTURE(grain, fullness);
      const GrainSpread spread(shear, shear.length / fullness, most, 3);
      check_promises(spread, shear, spread.past_most() ? 3 : most);
      if (spread.past_most() || fullness == 1) continue;
      // The greatest take-up, found at any place not capped, gives mu; with it the total is checked by sampling.
      const double room = 1 - 1 / most;
      double mu = 0;
      for (int i = 1; i < 400 && mu == 0; ++i) {
        const double x = spread.band() * i / 400, y = spread.map(x), c = 1 - 1 / spread.fullness(x);
        if (edge::value(shear, y) > 0.2 && c < 0.99 * room) mu = c / edge::value(shear, y);
      }
      CHECK(band_by_sampling(shear, mu, room) == Approx(spread.band()).epsilon(1e-7));
    }
  }
}

TEST_CASE("by grain, an edge drawn from its other end is spread the same from there") {
  const edge::Shear there = shear_of("M 0 0 C 20 -120 90 -160 160 -130 S 300 -120 320 0", 75);
  const edge::Shear back = shear_of("M 320 0 C 300 -120 230 -100 160 -130 C 90 -160 20 -120 0 0", 75);
  const double band = there.length / 1.05;
  const GrainSpread one(there, band, 1.07, 3), other(back, band, 1.07, 3);
  for (const double x : {0.0, 13.0, 100.0, 222.0, band}) {
    CHECK(one.map(x) == Approx(there.length - other.map(band - x)).epsilon(1e-8).margin(1e-7));
  }
  std::vector<double> stations{0, 10, 200, band}, places(4);
  one.map(stations, places);
  for (std::size_t i = 0; i < stations.size(); ++i)
    CHECK(places[i] == one.map(stations[i]));
  CHECK(one.knots().front() == 0);
  CHECK(one.knots().back() == exactly(band));
}

TEST_CASE("by grain, a larger drawing spreads in proportion") {
  const edge::Shear small = shear_of(cap, 80);
  const edge::Shear large = shear_of("M 0 0 C 200 -1200 900 -1600 1600 -1600 S 3000 -1200 3200 0", 80);
  const GrainSpread one(small, small.length / 1.05, 1.07, 3), other(large, large.length / 1.05, 1.07, 3);
  for (const double part : {0.1, 0.35, 0.8}) {
    CHECK(other.map(part * other.band()) == Approx(10 * one.map(part * one.band())).epsilon(1e-9));
  }
  CHECK(other.fullest() == exactly(one.fullest()));
}
