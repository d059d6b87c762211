// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/mark/rounding.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <numeric>
#include <optional>
#include <random>
#include <tuple>
#include <vector>

using gatherwright::mark::to_tape;

namespace {

/// An edge in whole parts of a step, `per_step` of them, so that every sum of the brute force is exact.
struct WholeEdge {
  std::int64_t per_step = 1;
  std::vector<std::int64_t> places; ///< without the end
  std::int64_t end = 0;

  std::vector<double> steps(bool closed, double noise = 0, std::uint64_t seed = 1) const {
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> any(-noise, noise);
    std::vector<double> at;
    for (const auto place : places)
      at.push_back(static_cast<double>(place) / static_cast<double>(per_step) + any(random));
    at.front() = 0;
    for (double &place : at)
      place = std::clamp(place, 0.0, length());
    if (!closed) at.push_back(length());
    std::sort(at.begin(), at.end());
    return at;
  }
  double length() const { return static_cast<double>(end) / static_cast<double>(per_step); }
};

/// The objective in whole parts: gaps, then positions, then the steps in order.
using Rank = std::tuple<std::int64_t, std::int64_t, std::vector<std::int64_t>>;

Rank rank_of(const WholeEdge &edge, const std::vector<std::int64_t> &tape) {
  const auto error = [&](std::size_t i) { return i == tape.size() ? 0 : tape[i] * edge.per_step - edge.places[i]; };
  std::int64_t gaps = 0;
  std::int64_t positions = 0;
  for (std::size_t i = 1; i <= tape.size(); ++i) {
    gaps += (error(i) - error(i - 1)) * (error(i) - error(i - 1));
    positions += error(i) * error(i);
  }
  return {gaps, positions, tape};
}

bool falls(const WholeEdge &edge, const std::vector<std::int64_t> &tape) {
  return !std::is_sorted(tape.begin(), tape.end()) || tape.back() * edge.per_step > edge.end;
}

bool mirrors_itself(const WholeEdge &edge, const std::vector<std::int64_t> &tape) {
  const std::int64_t length = edge.end / edge.per_step;
  for (std::size_t i = 1; i < tape.size(); ++i) {
    const bool middle = 2 * i == tape.size();
    if (middle ? tape[i] != length / 2 : tape[i] + tape[tape.size() - i] != length) return false;
  }
  return true;
}

/// The best of all 2^n roundings, by exact whole numbers.
std::vector<double> brute_force(const WholeEdge &edge, bool mirrored) {
  std::vector<std::int64_t> tape(edge.places.size());
  std::optional<Rank> best;
  for (std::uint32_t choice = 0; choice < (1u << (tape.size() - 1)); ++choice) {
    bool possible = true;
    for (std::size_t i = 1; i < tape.size(); ++i) {
      const bool up = (choice >> (i - 1)) & 1u;
      const bool on = edge.places[i] % edge.per_step == 0;
      possible = possible && !(on && up);
      tape[i] = edge.places[i] / edge.per_step + (up ? 1 : 0);
    }
    if (!possible || falls(edge, tape) || (mirrored && !mirrors_itself(edge, tape))) continue;
    const Rank rank = rank_of(edge, tape);
    if (!best || rank < *best) best = rank;
  }
  REQUIRE(best);
  return {std::get<2>(*best).begin(), std::get<2>(*best).end()};
}

WholeEdge random_edge(std::mt19937_64 &random, bool mirrored) {
  constexpr std::array<std::int64_t, 10> parts{2, 2, 3, 4, 6, 7, 8, 12, 16, 1000003};
  WholeEdge edge;
  edge.per_step = parts[random() % parts.size()];
  const std::size_t marks = random() % 13;
  const auto steps = 1 + static_cast<std::int64_t>(random() % 40);
  edge.end = steps * edge.per_step;
  if (!mirrored && random() % 2 == 0) edge.end += static_cast<std::int64_t>(random() % edge.per_step);
  edge.places.assign(1, 0);
  for (std::size_t i = 0; i < marks; ++i)
    edge.places.push_back(static_cast<std::int64_t>(random() % (edge.end + 1)));
  if (mirrored) {
    const bool doubled = edge.end % 2 != 0; // a middle mark must be a whole part
    if (doubled) edge = {2 * edge.per_step, edge.places, 2 * edge.end};
    for (std::size_t i = 1; i <= marks / 2; ++i) {
      if (doubled) edge.places[i] *= 2;
      edge.places[marks + 1 - i] = edge.end - edge.places[i];
    }
    if (marks % 2 == 1) edge.places[(marks + 1) / 2] = edge.end / 2;
  }
  std::sort(edge.places.begin(), edge.places.end());
  return edge;
}

/// Equal parts of a whole number of steps: every mark ties with others in the first sum.
WholeEdge equal_parts(std::int64_t steps, std::int64_t parts) {
  WholeEdge edge{parts, {}, steps * parts};
  for (std::int64_t i = 0; i < parts; ++i)
    edge.places.push_back(i * steps);
  return edge;
}

std::vector<double> without_end(std::vector<double> tape, bool closed) {
  if (!closed) tape.pop_back();
  return tape;
}

std::vector<double> tenfold(std::vector<double> centimetres) {
  for (double &place : centimetres)
    place *= 10;
  return centimetres;
}

/// What was read on a tape of whole millimetres.
std::vector<double> read_tenfold(std::vector<double> centimetres) {
  for (double &place : centimetres)
    place = std::round(place * 10);
  return centimetres;
}

} // namespace

TEST_CASE("marks go to the best of all roundings") {
  std::mt19937_64 random(41);
  for (int round = 0; round < 3000; ++round) {
    const WholeEdge edge = random_edge(random, false);
    const bool closed = round % 2 == 0;
    CAPTURE(edge.per_step, edge.places, edge.end, closed);
    const auto best = brute_force(edge, false);
    REQUIRE(without_end(to_tape(edge.steps(closed), edge.length(), closed, false), closed) == best);
  }
}

TEST_CASE("noise in the places does not decide a tie") {
  std::mt19937_64 random(42);
  for (int round = 0; round < 1500; ++round) {
    // The smallest true difference is 1 in per_step^2, here 1/256: no confusion with a noise of 5e-10.
    WholeEdge edge = random_edge(random, false);
    while (edge.per_step > 16)
      edge = random_edge(random, false);
    const bool closed = round % 2 == 0;
    CAPTURE(edge.per_step, edge.places, edge.end, closed);
    const auto best = brute_force(edge, false);
    const auto noisy = edge.steps(closed, 5e-10, static_cast<std::uint64_t>(round));
    REQUIRE(without_end(to_tape(noisy, edge.length(), closed, false), closed) == best);
  }
}

TEST_CASE("marks the same from both ends go to the best of the roundings that are so too") {
  std::mt19937_64 random(43);
  for (int round = 0; round < 3000; ++round) {
    const WholeEdge edge = random_edge(random, true);
    const bool closed = round % 2 == 0;
    CAPTURE(edge.per_step, edge.places, edge.end, closed);
    const auto best = brute_force(edge, true);
    REQUIRE(without_end(to_tape(edge.steps(closed), edge.length(), closed, true), closed) == best);
    const auto noisy = edge.steps(closed, edge.per_step > 32 ? 0 : 5e-10, static_cast<std::uint64_t>(round));
    REQUIRE(without_end(to_tape(noisy, edge.length(), closed, true), closed) == best);
  }
}

TEST_CASE("equal parts of any number go to the best of all roundings") {
  for (std::int64_t parts = 1; parts <= 13; ++parts) {
    for (std::int64_t steps = 1; steps <= 60; ++steps) {
      const WholeEdge edge = equal_parts(steps, parts);
      CAPTURE(parts, steps);
      for (const bool mirrored : {false, true}) {
        const auto best = brute_force(edge, mirrored);
        REQUIRE(without_end(to_tape(edge.steps(false), edge.length(), false, mirrored), false) == best);
        REQUIRE(to_tape(edge.steps(true), edge.length(), true, mirrored) == best);
      }
    }
  }
}

TEST_CASE("a half step goes down in a tie and stays where its neighbours need it") {
  CHECK(to_tape(std::vector<double>{0, 5.5, 11}, 11, false, false) == std::vector<double>{0, 5, 11});
  CHECK(to_tape(std::vector<double>{0, 5.499999999999987, 11}, 11, false, false) == std::vector<double>{0, 5, 11});
  CHECK(to_tape(std::vector<double>{0, 5.500000000000013, 11}, 11, false, false) == std::vector<double>{0, 5, 11});
  // The gap of 3 is kept: both up or both down, and down is lower.
  CHECK(to_tape(std::vector<double>{0, 5.5, 8.5, 14}, 14, false, false) == std::vector<double>{0, 5, 8, 14});
  // From both ends alike it must be broken, and the middle gap is then 2 or 4.
  CHECK(to_tape(std::vector<double>{0, 5.5, 8.5, 14}, 14, false, true) == std::vector<double>{0, 5, 9, 14});
}

TEST_CASE("a place on a step stays, within a millionth") {
  const std::vector<double> places{0, 3 - 9e-7, 7 + 9e-7, 8 + 2e-6, 12};
  const auto tape = to_tape(places, 12, false, false);
  CHECK(tape == std::vector<double>{0, 3, 7, 8, 12});
  // Just off the step it may go either way: here up, to save the gap.
  CHECK(to_tape(std::vector<double>{0, 3.9, 4 + 2e-6, 4.9, 9}, 9, false, false) == std::vector<double>{0, 4, 4, 5, 9});
}

TEST_CASE("an edge that ends off the tape keeps its end, and no mark passes it") {
  CHECK(to_tape(std::vector<double>{0, 10.1, 10.3}, 10.3, false, false) == std::vector<double>{0, 10, 10.3});
  CHECK(to_tape(std::vector<double>{0, 9.9999995, 9.9999999}, 9.9999999, false, false) ==
        std::vector<double>{0, 9, 9.9999999});
  CHECK(to_tape(std::vector<double>{0, 10.1}, 10.3, true, false) == std::vector<double>{0, 10});
  // No whole number of steps cannot be mirrored: rounded as if it had not been asked for.
  CHECK(to_tape(std::vector<double>{0, 5.2, 10.4}, 10.4, false, true) == std::vector<double>{0, 5, 10.4});
}

TEST_CASE("edges with nothing to round") {
  CHECK(to_tape(std::vector<double>{}, 0, false, false).empty());
  CHECK(to_tape(std::vector<double>{0}, 7.5, true, true) == std::vector<double>{0});
  CHECK(to_tape(std::vector<double>{0, 7.5}, 7.5, false, false) == std::vector<double>{0, 7.5});
  CHECK(to_tape(std::vector<double>{0, 7}, 7, false, true) == std::vector<double>{0, 7});
  CHECK(to_tape(std::vector<double>{0, 0, 0}, 0, false, true) == std::vector<double>{0, 0, 0});
}

namespace {

double sum_of_squares(const std::vector<double> &places, const std::vector<double> &tape) {
  double sum = 0;
  for (std::size_t i = 1; i < tape.size(); ++i) {
    const double error = (tape[i] - tape[i - 1]) - (places[i] - places[i - 1]);
    sum += error * error;
  }
  return sum;
}

/// The least sum by another road: the cost of both steps at every mark, all marks up to it summed in long double.
long double least_sum(const std::vector<double> &places) {
  std::array<long double, 2> least{0, 0};
  std::array<long double, 2> step{0, 0};
  for (std::size_t i = 1; i < places.size(); ++i) {
    const bool end = i + 1 == places.size();
    const std::array<long double, 2> here{end ? places[i] : std::floor(places[i]),
                                          end ? places[i] : std::floor(places[i]) + 1.0L};
    std::array<long double, 2> next{1e30L, 1e30L};
    for (std::size_t to = 0; to < 2; ++to) {
      for (std::size_t from = 0; from < 2; ++from) {
        if (here[to] < step[from]) continue;
        const long double error = (here[to] - step[from]) - (static_cast<long double>(places[i]) - places[i - 1]);
        next[to] = std::min(next[to], least[from] + error * error);
      }
    }
    least = next;
    step = here;
  }
  return std::min(least[0], least[1]);
}

} // namespace

TEST_CASE("errors do not build up over ten thousand marks") {
  std::mt19937_64 random(44);
  std::uniform_real_distribution<double> any(0, 1);
  for (const double spacing : {0.7, 3.3, 99.9}) {
    std::vector<double> places{0};
    while (places.size() < 10000)
      places.push_back(places.back() + spacing * (0.01 + any(random)));
    const auto tape = to_tape(places, places.back(), false, false);
    REQUIRE(tape.back() == places.back());
    double drift = 0;
    for (std::size_t i = 1; i + 1 < tape.size(); ++i) {
      REQUIRE(tape[i] == std::floor(tape[i]));
      REQUIRE(tape[i] >= tape[i - 1]);
      REQUIRE(std::abs(tape[i] - places[i]) < 1);
      drift += tape[i] - places[i];
    }
    CHECK(std::abs(drift) / 10000 < 0.05); // a bias of one way would be 0.5
    // Each of the marks may have met one near tie, decided within its doubt of some 1e-8.
    CHECK(sum_of_squares(places, tape) == Approx(static_cast<double>(least_sum(places))).epsilon(0).margin(1e-6));
  }
}

TEST_CASE("ten thousand equal parts stay equal from both ends") {
  std::vector<double> places;
  for (int i = 0; i <= 10000; ++i)
    places.push_back(999900.0 * i / 10000);
  const auto tape = to_tape(places, 999900, false, true);
  for (std::size_t i = 0; i < tape.size(); ++i) {
    REQUIRE(tape[i] + tape[tape.size() - 1 - i] == 999900);
    REQUIRE(std::abs(tape[i] - places[i]) < 1);
  }
}

// Exact places and readings in centimetres of a tape of millimetres, worked by a separate program in another language.

TEST_CASE("a neckline with shoulders, worked elsewhere") {
  const std::vector<double> long_edge{0.0,
                                      2.000000000000013,
                                      5.952702702702714,
                                      9.905405405405416,
                                      13.858108108108121,
                                      17.810810810810818,
                                      23.60810810810812,
                                      29.405405405405425,
                                      35.20270270270272,
                                      41.00000000000002,
                                      46.79729729729733,
                                      52.594594594594625,
                                      58.391891891891916,
                                      64.18918918918924,
                                      68.14189189189193,
                                      72.09459459459462,
                                      76.04729729729733,
                                      80.00000000000003,
                                      82.0};
  const std::vector<double> long_tape{0.0,  2.0,  6.0,  9.9,  13.9, 17.8, 23.6, 29.4, 35.2, 41.0,
                                      46.8, 52.6, 58.4, 64.2, 68.1, 72.1, 76.0, 80.0, 82.0};
  CHECK(to_tape(tenfold(long_edge), 820, false, true) == read_tenfold(long_tape));
  const std::vector<double> band{0.0,
                                 1.9999999999999958,
                                 3.874999999999993,
                                 5.749999999999991,
                                 7.6249999999999885,
                                 9.499999999999986,
                                 12.249999999999984,
                                 14.999999999999982,
                                 17.74999999999998,
                                 20.49999999999998,
                                 23.24999999999998,
                                 25.99999999999998,
                                 28.74999999999997,
                                 31.49999999999997,
                                 33.374999999999964,
                                 35.249999999999964,
                                 37.12499999999996,
                                 38.99999999999996,
                                 41.0};
  const std::vector<double> band_tape{0.0,  2.0,  3.9,  5.7,  7.6,  9.5,  12.2, 15.0, 17.7, 20.5,
                                      23.3, 26.0, 28.8, 31.5, 33.4, 35.3, 37.1, 39.0, 41.0};
  CHECK(to_tape(tenfold(band), 410, false, true) == read_tenfold(band_tape));
}

TEST_CASE("a ring, worked elsewhere") {
  const std::vector<double> long_edge{0.0,
                                      8.206249999999999,
                                      16.412499999999998,
                                      24.618749999999995,
                                      32.824999999999996,
                                      41.031249999999986,
                                      49.23749999999999,
                                      57.44374999999999,
                                      65.64999999999999,
                                      73.85624999999997,
                                      82.06249999999997,
                                      90.26874999999998,
                                      98.47499999999998,
                                      106.68124999999998,
                                      114.88749999999997,
                                      123.09374999999997};
  const std::vector<double> long_tape{0.0,  8.2,  16.4, 24.6, 32.8, 41.0,  49.2,  57.4,
                                      65.6, 73.9, 82.1, 90.3, 98.5, 106.7, 114.9, 123.1};
  CHECK(to_tape(tenfold(long_edge), 1313, true, true) == read_tenfold(long_tape));
  const std::vector<double> band{0.0,   3.60625,  7.2125,  10.81875, 14.425, 18.03125, 21.6375, 25.24375,
                                 28.85, 32.45625, 36.0625, 39.66875, 43.275, 46.88125, 50.4875, 54.09375};
  const std::vector<double> band_tape{0.0,  3.6,  7.2,  10.8, 14.4, 18.0, 21.6, 25.2,
                                      28.8, 32.5, 36.1, 39.7, 43.3, 46.9, 50.5, 54.1};
  CHECK(to_tape(tenfold(band), 577, true, true) == read_tenfold(band_tape));
}

TEST_CASE("edges not the same from both ends, worked elsewhere") {
  const std::vector<double> flounce{0.0,
                                    12.8,
                                    25.6,
                                    38.4,
                                    51.2,
                                    64.0,
                                    67.99999999999996,
                                    80.99999999999996,
                                    93.99999999999996,
                                    106.99999999999996,
                                    119.99999999999996,
                                    132.75,
                                    145.50000000000006,
                                    158.25000000000009,
                                    171.0};
  CHECK(to_tape(tenfold(flounce), 1710, false, false) ==
        read_tenfold({0.0, 12.8, 25.6, 38.4, 51.2, 64.0, 68.0, 81.0, 94.0, 107.0, 120.0, 132.7, 145.5, 158.2, 171.0}));
  const std::vector<double> drawn{0.0, 8.973318731945042, 17.946637463890085, 26.919956195835123, 35.89327492778017};
  const auto tape = to_tape(tenfold(drawn), 358.9327492778017, false, true);
  CHECK(std::vector<double>(tape.begin(), tape.end() - 1) == std::vector<double>{0, 90, 179, 269});
  CHECK(tape.back() == 358.9327492778017);
}
