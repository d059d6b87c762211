// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/spread/spread.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <random>
#include <vector>

using namespace gatherwright::spread;
using Points = std::vector<std::array<double, 2>>;

namespace {

// Both sides are a few dozen operations, each rounded to 1.1e-16 of numbers no larger than the edge.
constexpr double rounding = 1e-13;

// What the map promises of its total, and limits of themselves.
constexpr double promised = 1e-9;

Approx near(double value, double scale) {
  return Approx(value).epsilon(0).margin(rounding * std::abs(scale));
}

double between(std::mt19937_64 &random, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(random);
}

/// The integral of the local fullness by Gauss-Legendre with three points a piece, exact to degree 5.
double total_of(const Spread &spread) {
  double total = 0;
  for (std::size_t i = 0; i + 1 < spread.knots().size(); ++i) {
    const double width = spread.knots()[i + 1] - spread.knots()[i];
    const double middle = spread.knots()[i] + width / 2;
    const double arm = width / 2 * std::sqrt(0.6);
    total += width / 18 *
             (5 * spread.fullness(middle - arm) + 8 * spread.fullness(middle) + 5 * spread.fullness(middle + arm));
  }
  return total;
}

Points random_points(std::mt19937_64 &random, int count) {
  Points points(static_cast<std::size_t>(count));
  for (auto &point : points) {
    point = {between(random, 0, 1), between(random, 0, 1) < 0.2 ? 0 : between(random, 0, 3)};
  }
  std::sort(points.begin(), points.end());
  points.front()[0] = 0;
  points.back()[0] = 1;
  return points;
}

Points reversed(const Points &points) {
  Points turned;
  for (auto point = points.rbegin(); point != points.rend(); ++point)
    turned.push_back({1 - (*point)[0], (*point)[1]});
  return turned;
}

/// A random wish, even, faded or shaped, over a band.
Wish random_wish(std::mt19937_64 &random, double band) {
  const double kind = between(random, 0, 1);
  if (kind < 0.1) return even(band);
  if (kind < 0.5) {
    const double rise = between(random, 0, 1) < 0.1 ? 0 : between(random, 0, band);
    return fade(band, rise, between(random, 0, 1) < 0.1 ? 0 : between(random, 0, band - rise));
  }
  return shape(band, random_points(random, 2 + static_cast<int>(between(random, 0, 8))));
}

std::vector<double> stations(double band, int count) {
  std::vector<double> x(static_cast<std::size_t>(count) + 1);
  for (int i = 0; i <= count; ++i)
    x[static_cast<std::size_t>(i)] = band * i / count;
  return x;
}

} // namespace

TEST_CASE("an even spread is the same fullness everywhere") {
  const Spread spread(even(220), 490, 220, 2.7, 7.8);
  for (int i = 0; i <= 8; ++i)
    CHECK(spread.map(220.0 * i / 8) == near(490.0 * i / 8, 490));
  CHECK(spread.fullness(0) == 490.0 / 220);
  CHECK(spread.fullest() == 490.0 / 220);
  CHECK(spread.slackest() == 490.0 / 220);
  CHECK_FALSE(spread.capped());
  CHECK_FALSE(spread.past_most());
  CHECK(spread.band() == 220);
  CHECK(spread.long_length() == 490);
  CHECK(spread.knots().size() == 2);
}

TEST_CASE("a fade meets its closed form") {
  std::mt19937_64 random(11);
  for (int round = 0; round < 300; ++round) {
    const double band = between(random, 10, 900);
    const double rise = between(random, 0, band);
    const double fall = between(random, 0, band - rise);
    const double extra = between(random, 0, band);
    const double lambda = extra / (band - (rise + fall) / 2);
    const Spread spread(fade(band, rise, fall), band + extra, band, 1 + lambda * 1.001, 10);
    const auto risen = [](double run, double over) { return over > 0 ? run * run / (2 * over) : 0; };
    for (const double x : stations(band, 40)) {
      const double on_rise = std::min(x, rise);
      const double on_top = std::clamp(x, rise, band - fall) - rise;
      const double still_to_fall = std::min(fall, band - x);
      const double wanted = risen(on_rise, rise) + on_top + fall / 2 - risen(still_to_fall, fall);
      CHECK(spread.map(x) == near(x + lambda * wanted, band + extra));
    }
    CHECK(spread.fullest() == Approx(1 + lambda).epsilon(1e-13));
    CHECK(spread.slackest() == 1);
    CHECK_FALSE(spread.capped());
  }
}

TEST_CASE("a fade over no length at an end is a jump there") {
  const Spread both(fade(100, 0, 0), 250, 100, 3, 8);
  CHECK(both.fullness(0) == 2.5);
  CHECK(both.fullness(100) == 2.5);
  CHECK(both.slackest() == 2.5);
  const Spread first(fade(100, 0, 40), 100 + 80, 100, 3, 8); // lambda = 80 / (100 - 20) = 1
  CHECK(first.fullness(0) == 2);
  CHECK(first.map(60) == near(120, 180));
  CHECK(first.fullness(100) == 1);
  CHECK(first.slackest() == 1);
  const Spread meeting(fade(0.3, 0.1, 0.2), 0.6, 0.3, 3, 8); // 0.1 + 0.2 is above 0.3 in doubles
  CHECK(meeting.knots().size() == 3);
  CHECK(meeting.fullest() == Approx(3).epsilon(1e-13));
}

TEST_CASE("the cap bites into a fade and the rest is raised") {
  // Worked by hand: 320 = 2 (180 - 100 / lambda), so lambda = 5 and the ramps end at 24 and 164.
  const Spread spread(fade(180, 60, 40), 500, 180, 3.0, 11.64);
  CHECK(spread.map(24) == near(24 + 24, 500));
  CHECK(spread.map(30) == near(66, 500));
  CHECK(spread.map(60) == near(156, 500));
  CHECK(spread.map(150) == near(426, 500));
  CHECK(spread.map(180) == 500);
  CHECK(spread.fullest() == 3.0);
  CHECK(spread.slackest() == 1);
  CHECK(spread.capped());
  CHECK_FALSE(spread.past_most());
  REQUIRE(spread.knots().size() == 4);
  CHECK(spread.knots()[1] == near(24, 180));
  CHECK(spread.knots()[2] == near(164, 180));
}

TEST_CASE("a hump of three points") {
  const Points points{{0, 1}, {0.5, 2}, {1, 1}};
  const Spread spread(shape(180, points), 390, 180, 3, 11.64);
  CHECK(spread.map(45) == near(88.17434210526315, 390));
  CHECK(spread.map(90) == near(195, 390));
  CHECK(spread.fullest() == near(2.473684210526316, 1));
  CHECK(spread.slackest() == near(1.736842105263158, 1));
  CHECK_FALSE(spread.capped());
}

TEST_CASE("two points of a shape are a straight line") {
  std::mt19937_64 random(12);
  for (int round = 0; round < 200; ++round) {
    const double band = between(random, 1, 900);
    const double extra = between(random, 0, band);
    const double from = between(random, 0, 2);
    const double to = between(random, 0, 2);
    const double lambda = extra / (band * (from + to) / 2);
    const Spread spread(shape(band, Points{{0, from}, {1, to}}), band + extra, band, 10, 20);
    for (const double x : stations(band, 20)) {
      CHECK(spread.map(x) == near(x + lambda * (from * x + (to - from) * x * x / (2 * band)), band + extra));
      CHECK(spread.fullness(x) == Approx(1 + lambda * (from + (to - from) * x / band)).epsilon(1e-12));
    }
    CHECK(spread.slackest() == Approx(1 + lambda * std::min(from, to)).epsilon(1e-12));
  }
}

TEST_CASE("a capped line keeps its total in closed form") {
  // w = x / b, capped at m: extra = m b - m^2 b / (2 lambda), so lambda = m^2 b / (2 (m b - extra)).
  std::mt19937_64 random(13);
  for (int round = 0; round < 200; ++round) {
    const double band = between(random, 1, 900);
    const double room = between(random, 0.05, 3);
    const double extra = room * band * between(random, 0.51, 1);
    const double lambda = room * room * band / (2 * (room * band - extra));
    const double ramp = band * room / lambda;
    const Spread up(shape(band, Points{{0, 0}, {1, 1}}), band + extra, band, 1 + room, 20);
    const Spread down(shape(band, Points{{0, 1}, {1, 0}}), band + extra, band, 1 + room, 20);
    CHECK(up.capped());
    for (const double x : stations(band, 20)) {
      const double y = x < ramp ? x + lambda * x * x / (2 * band)
                                : ramp + lambda * ramp * ramp / (2 * band) + (1 + room) * (x - ramp);
      // The ramp's end is a quotient whose divisor may be a small difference.
      const double margin = 1e-11 * (band + extra);
      CHECK(up.map(x) == Approx(y).epsilon(0).margin(margin));
      CHECK(down.map(band - x) == Approx(band + extra - y).epsilon(0).margin(margin));
    }
  }
}

TEST_CASE("any spread keeps its total and its cap") {
  std::mt19937_64 random(14);
  int capped = 0;
  int past = 0;
  for (int round = 0; round < 5000; ++round) {
    const double band = between(random, 1, 900);
    const double most = between(random, 1.02, 4);
    const double packed = most * between(random, 1, 3);
    const double long_length = band * between(random, 1, most * 1.1 < packed ? most * 1.1 : packed);
    const Spread spread(random_wish(random, band), long_length, band, most, packed);
    const double cap = spread.past_most() ? packed : most;
    capped += spread.capped();
    past += spread.past_most();
    REQUIRE(total_of(spread) == Approx(long_length).epsilon(1e-11));
    REQUIRE(spread.map(0) == 0);
    REQUIRE(spread.map(band) == long_length);
    double fullest = 0;
    for (const double x : stations(band, 50)) {
      REQUIRE(spread.fullness(x) >= 1 - rounding);
      REQUIRE(spread.fullness(x) <= cap * (1 + promised));
      fullest = std::max(fullest, spread.fullness(x));
    }
    REQUIRE(fullest <= spread.fullest() * (1 + rounding));
    if (spread.capped()) REQUIRE(spread.fullest() == Approx(cap).epsilon(promised));
  }
  CHECK(capped > 1000);
  CHECK(past > 100);
}

namespace {

/// The least of sum (e - w)^2 / w over e <= room with a given sum, cell by cell: cap what passes, raise the rest,
/// again.
std::vector<double> water_filled(const std::vector<double> &wish, double sum, double room) {
  std::vector<double> extra(wish.size());
  std::vector<bool> full(wish.size(), false);
  for (bool changed = true; changed;) {
    changed = false;
    double left = sum;
    double weight = 0;
    for (std::size_t i = 0; i < wish.size(); ++i)
      (full[i] ? left : weight) += full[i] ? -room : wish[i];
    for (std::size_t i = 0; i < wish.size(); ++i) {
      extra[i] = full[i] ? room : wish[i] * left / weight;
      if (extra[i] > room) changed = full[i] = true;
    }
  }
  return extra;
}

double departure(const std::vector<double> &extra, const std::vector<double> &wish) {
  double sum = 0;
  for (std::size_t i = 0; i < wish.size(); ++i)
    sum += (extra[i] - wish[i]) * (extra[i] - wish[i]) / wish[i];
  return sum;
}

} // namespace

TEST_CASE("a capped spread departs least from the wish") {
  std::mt19937_64 random(15);
  constexpr std::size_t cells = 2000;
  const double band = 100;
  for (int round = 0; round < 40; ++round) {
    Points points = random_points(random, 5);
    for (auto &point : points)
      point[1] += 0.05;
    const Wish wish = shape(band, points);
    const double most = between(random, 1.3, 3);
    const double long_length = band * (1 + (most - 1) * between(random, 0.6, 0.97));
    const Spread asked(wish, band * 1.000001, band, 1e6, 1e6); // its extra is the wish, to a factor
    const Spread spread(wish, long_length, band, most, 20);
    std::vector<double> wanted(cells);
    std::vector<double> taken(cells);
    for (std::size_t i = 0; i < cells; ++i) {
      const double x = band * (static_cast<double>(i) + 0.5) / cells;
      wanted[i] = (asked.fullness(x) - 1) / 1e-6;
      taken[i] = spread.fullness(x) - 1;
    }
    const double sum = std::accumulate(taken.begin(), taken.end(), 0.0);
    const auto best = water_filled(wanted, sum, most - 1);
    // The wish is read off 1 + 1e-6 w, so to 1e-9.
    for (std::size_t i = 0; i < cells; ++i)
      REQUIRE(taken[i] == Approx(best[i]).epsilon(0).margin(1e-7));
    CHECK(sum * band / cells == Approx(long_length - band).epsilon(1e-4)); // the midpoint rule, across kinks
    // And no exchange between two places does better.
    for (int exchange = 0; exchange < 200; ++exchange) {
      auto other = taken;
      const auto from = static_cast<std::size_t>(between(random, 0, cells));
      const auto to = static_cast<std::size_t>(between(random, 0, cells));
      const double amount = std::min({other[from], most - 1 - other[to], between(random, 0, 0.2)});
      if (amount < 1e-4) continue; // below it the square drowns in the 1e-9 of the wish
      other[from] -= amount;
      other[to] += amount;
      REQUIRE(departure(other, wanted) > departure(taken, wanted) * (1 - 1e-10));
    }
  }
}

TEST_CASE("the map rises strictly") {
  std::mt19937_64 random(16);
  for (int round = 0; round < 300; ++round) {
    const double band = between(random, 1, 900);
    const double long_length = band * between(random, 0.5, 6);
    const Spread spread(random_wish(random, band), long_length, band, 3, 5);
    auto x = stations(band, 1000);
    x.insert(x.end(), spread.knots().begin(), spread.knots().end());
    std::sort(x.begin(), x.end());
    for (std::size_t i = 1; i < x.size(); ++i) {
      // Nearer stations than this may share a double on the long edge.
      if (x[i] - x[i - 1] > 1e-12 * band) REQUIRE(spread.map(x[i]) > spread.map(x[i - 1]));
    }
  }
}

TEST_CASE("many stations at once are each where one alone is") {
  std::mt19937_64 random(17);
  for (int round = 0; round < 50; ++round) {
    const double band = between(random, 1, 900);
    const Spread spread(random_wish(random, band), band * between(random, 1, 3), band, 3, 5);
    auto x = stations(band, 333);
    x.insert(x.end(), spread.knots().begin(), spread.knots().end());
    std::sort(x.begin(), x.end());
    std::vector<double> y(x.size());
    spread.map(x, y);
    for (std::size_t i = 0; i < x.size(); ++i)
      REQUIRE(y[i] == spread.map(x[i]));
    std::reverse(x.begin(), x.end()); // not promised, but no reason for nonsense
    spread.map(x, y);
    for (std::size_t i = 0; i < x.size(); ++i)
      REQUIRE(y[i] == spread.map(x[i]));
  }
}

TEST_CASE("a mirrored wish gives the mirrored map") {
  std::mt19937_64 random(18);
  for (int round = 0; round < 500; ++round) {
    const double band = between(random, 1, 900);
    const double long_length = band * between(random, 1, 3.3);
    const double rise = between(random, 0, band);
    const double fall = between(random, 0, band - rise);
    const Points points = random_points(random, 6);
    const bool faded = round % 2 == 0;
    const Spread there(faded ? fade(band, rise, fall) : shape(band, points), long_length, band, 3, 5);
    const Spread back(faded ? fade(band, fall, rise) : shape(band, reversed(points)), long_length, band, 3, 5);
    for (const double x : stations(band, 40)) {
      // Close points make the slopes of a shape large, and 1 - fraction is rounded.
      REQUIRE(back.map(band - x) == Approx(long_length - there.map(x)).epsilon(0).margin(1e-10 * long_length));
    }
    CHECK(there.fullest() == Approx(back.fullest()).epsilon(1e-9));
    CHECK(there.slackest() == Approx(back.slackest()).epsilon(1e-9));
    CHECK(there.capped() == back.capped());
  }
}

TEST_CASE("a thousandfold join is spread a thousandfold") {
  std::mt19937_64 random(19);
  for (int round = 0; round < 500; ++round) {
    const double band = between(random, 1, 900);
    const double long_length = band * between(random, 0.8, 5.5);
    const double rise = between(random, 0, band);
    const double fall = between(random, 0, band - rise);
    const Points points = random_points(random, 6);
    const bool faded = round % 2 == 0;
    const Spread small(faded ? fade(band, rise, fall) : shape(band, points), long_length, band, 3, 5);
    const Spread large(faded ? fade(1000 * band, 1000 * rise, 1000 * fall) : shape(1000 * band, points),
                       1000 * long_length, 1000 * band, 3, 5);
    for (const double x : stations(band, 40)) {
      REQUIRE(large.map(1000 * x) == Approx(1000 * small.map(x)).epsilon(0).margin(1e-9 * long_length));
    }
    CHECK(large.fullest() == Approx(small.fullest()).epsilon(1e-11));
    CHECK(large.past_most() == small.past_most());
  }
}

TEST_CASE("at most throughout a fade becomes level") {
  const Spread exact(fade(180, 60, 40), 540, 180, 3, 10);
  CHECK(exact.map(30) == near(90, 540));
  CHECK(exact.capped());
  CHECK_FALSE(exact.past_most());
  CHECK(exact.fullest() == near(3, 3));
  CHECK(exact.slackest() == near(3, 3));
  // The limit holds within 1e-9 of itself, and the total is kept all the same.
  const Spread noise(fade(180, 60, 40), 540 * (1 + 5e-10), 180, 3, 10);
  CHECK_FALSE(noise.past_most());
  CHECK(total_of(noise) == Approx(540 * (1 + 5e-10)).epsilon(1e-13));
  CHECK(noise.fullest() == Approx(3).epsilon(promised));
}

TEST_CASE("a mean past most is capped at packed and said to be") {
  const Spread spread(fade(180, 60, 40), 640, 180, 3, 10);
  CHECK(spread.past_most());
  CHECK_FALSE(spread.capped()); // lambda = 460 / 130, below 9
  CHECK(spread.fullest() == near(1 + 460.0 / 130, 1));
  const Spread pressed(fade(180, 60, 40), 1780, 180, 3, 10); // 1600 = 9 (180 - 450 / lambda), lambda = 202.5
  CHECK(pressed.past_most());
  CHECK(pressed.capped());
  CHECK(pressed.fullest() == 10);
  CHECK(pressed.knots()[1] == near(60 * 9 / 202.5, 180));
  CHECK(Spread(even(180), 640, 180, 3, 10).past_most());
}

TEST_CASE("past packed, or with less cloth than band, there is no spread") {
  const Wish wish = fade(100, 30, 30);
  const Spread over(wish, 1100, 100, 3, 10);
  CHECK(over.map(10) == near(110, 1100));
  CHECK(over.fullest() == 11);
  CHECK(over.slackest() == 11);
  CHECK(over.past_most());
  CHECK_FALSE(over.capped());
  const Spread under(wish, 90, 100, 3, 10);
  CHECK(under.map(10) == near(9, 90));
  CHECK(under.fullest() == 0.9);
  CHECK(under.slackest() == 0.9);
  CHECK_FALSE(under.past_most());
  const Spread none(wish, 0, 100, 3, 10);
  CHECK(none.map(50) == 0);
  CHECK(none.fullest() == 0);
  const Spread flat(wish, 100, 100, 3, 10);
  CHECK(flat.map(37) == near(37, 100));
  CHECK(flat.fullest() == 1);
  CHECK(flat.slackest() == 1);
  CHECK_FALSE(flat.capped());
  const Spread no_ease(wish, 100, 100, 1, 1);
  CHECK(no_ease.map(37) == near(37, 100));
  CHECK_FALSE(no_ease.past_most());
}

TEST_CASE("where the wish is nothing the rest holds the extra, at packed if it must") {
  // w = 1 up to 40, falls to 0 at 50 as 1 - 3 t^2 + 2 t^3 by Steffen's slopes of 0, 0 from there.
  const Points points{{0, 1}, {0.4, 1}, {0.5, 0}, {1, 0}};
  const Wish wish = shape(100, points);

  SECTION("under most") {
    const Spread spread(wish, 145, 100, 3, 6); // 45 = lambda (40 + 5)
    CHECK(spread.fullest() == near(2, 1));
    CHECK(spread.map(40) == near(80, 145));
    CHECK(spread.map(75) == near(120, 145));
    CHECK(spread.slackest() == 1);
    CHECK_FALSE(spread.past_most());
  }
  SECTION("most exactly suffices") {
    const Spread spread(wish, 200, 100, 3, 6); // 50 x 2
    CHECK(spread.map(50) == near(150, 200));
    CHECK(spread.slackest() == 3);
    CHECK(spread.capped());
    CHECK_FALSE(spread.past_most());
  }
  SECTION("just short of it") {
    const Spread spread(wish, 200 - 1e-7, 100, 3, 6);
    CHECK(spread.capped());
    CHECK(spread.slackest() == 1);
    CHECK(total_of(spread) == Approx(200 - 1e-7).epsilon(1e-12));
  }
  SECTION("past most") {
    const Spread spread(wish, 250, 100, 3, 6);
    CHECK(spread.past_most());
    CHECK(spread.fullest() == near(1 + 150.0 / 45, 1));
    CHECK(spread.map(50) == near(200, 250));
  }
  SECTION("past packed, filled evenly") {
    const Spread spread(wish, 400, 100, 3, 6); // 50 x 6 = 300, and 100 left over 50
    CHECK(spread.past_most());
    CHECK(spread.capped());
    CHECK(spread.map(50) == near(300, 400));
    CHECK(spread.map(75) == near(350, 400));
    CHECK(spread.fullest() == 6);
    CHECK(spread.slackest() == 6);
  }
}

TEST_CASE("a wish for nothing anywhere is even") {
  const Spread spread(shape(100, Points{{0, 0}, {0.5, 0}, {1, 0}}), 250, 100, 3, 6);
  CHECK(spread.map(20) == near(50, 250));
  CHECK(spread.fullest() == 2.5);
  CHECK_FALSE(spread.past_most());
  CHECK(Spread(shape(100, Points{{0, 0}, {1, 0}}), 350, 100, 3, 6).past_most());
}

TEST_CASE("at a jump the fullness is that of the left") {
  const Spread spread(Wish{{0, 40, 100}, {{1, 0, 0, 0}, {0.5, 0, 0, 0}}}, 170, 100, 3, 6); // lambda 1
  CHECK(spread.fullness(40) == 2);
  CHECK(spread.fullness(40.0001) == 1.5);
  CHECK(spread.fullness(0) == 2);
  CHECK(spread.map(40) == near(80, 170));
  CHECK(spread.slackest() == 1.5);
}

TEST_CASE("nothing odd comes of odd wishes") {
  std::mt19937_64 random(20);
  const std::array<double, 9> wishes{0, 0, 5e-324, 1e-300, 1e-12, 1, 2, 1e12, 1.7e308};
  const std::array<double, 6> bands{1e-300, 1e-9, 0.01, 100, 1e9, 1e250};
  const std::array<double, 7> steps{0, 5e-324, 1e-17, 1e-13, 1e-9, 0.1, 0.3};
  const std::array<double, 9> lengths{0, 0.5, 1, 1 + 1e-15, 1 + 1e-9, 1.5, 2 - 1e-12, 2, 3.9999};
  const auto any = [&](const auto &of) { return of[random() % of.size()]; };
  for (int round = 0; round < 20000; ++round) {
    const double band = any(bands);
    Points points{{0, any(wishes)}};
    while (points.back()[0] < 1)
      points.push_back({std::min(1.0, points.back()[0] + any(steps)), any(wishes)});
    for (std::size_t i = points.size(); i-- > 1;) {
      if (points[i][0] == points[i - 1][0]) points.erase(points.begin() + static_cast<std::ptrdiff_t>(i) - 1);
    }
    points.front()[0] = 0;
    const Wish wish = round % 4 == 0 ? fade(band, any(steps) * band, any(steps) * band) : shape(band, points);
    const double long_length = any(lengths) * band;
    const Spread spread(wish, long_length, band, round % 3 == 0 ? 1.0001 : 2, 4);
    REQUIRE(spread.map(0) == 0);
    REQUIRE(spread.map(band) == long_length);
    double before = 0;
    for (const double x : stations(band, 30)) {
      const double y = spread.map(x);
      REQUIRE(y >= before);
      before = y;
      REQUIRE(spread.fullness(x) >= std::min(1.0, long_length / band) * (1 - 1e-11));
      REQUIRE(spread.fullness(x) <= 4 * (1 + promised));
    }
    REQUIRE(total_of(spread) == Approx(long_length).epsilon(1e-10));
    REQUIRE(spread.slackest() <= spread.fullest());
  }
}

TEST_CASE("what is the same everywhere is spread as by an even wish, to the bit") {
  std::mt19937_64 random(31);
  for (int i = 0; i < 20'000; ++i) {
    const double band = std::exp(between(random, -3, 9));
    const double most = between(random, 1, 4);
    const double fullness = i % 5 == 0 ? most : i % 7 == 0 ? 1 : between(random, 0.2, 5);
    const double long_length = i % 100 == 0 ? 0 : fullness * band;
    const Spread wished(even(band), long_length, band, most, most + 1);
    const Level level(long_length, band, most);
    CHECK(level.fullest() == wished.fullest());
    CHECK(level.slackest() == wished.slackest());
    CHECK(level.capped() == wished.capped());
    CHECK(level.past_most() == wished.past_most());
    CHECK(std::equal(level.knots().begin(), level.knots().end(), wished.knots().begin(), wished.knots().end()));
    const std::array<double, 4> places{0, band * between(random, 0, 1), band * (1 - 1e-16), band};
    std::array<double, 4> mapped{};
    level.map(places, mapped);
    for (std::size_t k = 0; k < places.size(); ++k) {
      CHECK(level.map(places[k]) == wished.map(places[k]));
      CHECK(mapped[k] == level.map(places[k]));
    }
  }
}
