// SPDX-License-Identifier: GPL-3.0-or-later
// What is too much, too small, too large or nothing at all. Each of these ends by counted work; none is timed.

#include "solver/layout/checker.hpp"
#include "solver/layout/lay.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <stdexcept>

using namespace gatherwright::layout;
using Why = Misfit::Why;

namespace {

constexpr double no_number = std::numeric_limits<double>::quiet_NaN();
constexpr double endless = std::numeric_limits<double>::infinity();

std::optional<Why> why(const Problem &problem) {
  const auto found = misfit(problem);
  if (found) CHECK_THROWS_AS(lay(problem), std::invalid_argument);
  return found ? std::optional(found->why) : std::nullopt;
}

void holds(const Problem &problem) {
  REQUIRE_FALSE(misfit(problem));
  const Layout layout = lay(problem, {20'000'000, 5'000'000});
  CHECK_FALSE(check(problem, layout));
  CHECK(layout.bound > 0);
}

} // namespace

TEST_CASE("sizes that are no sizes are told") {
  for (const double size : {0.0, -1.0, no_number, endless, -endless, 1e300, 1e-300, 5e-324}) {
    CHECK(why({size, {{1, 1, 1}}}) == Why::width);
    CHECK(why({10, {{size, 1, 1}}}) == Why::size);
    CHECK(why({10, {{1, size, 1}}}) == Why::size);
  }
  CHECK(why({10, {{1, 1, 1}, {1, 1, 0}}}) == Why::count);
  CHECK(why({10, {{1, 1, -5}}}) == Why::count);
  CHECK(why({10, {{1, 1, 10'001}}}) == Why::too_many);
  CHECK(why({10, {{1, 1, std::numeric_limits<int>::max()}, {1, 1, std::numeric_limits<int>::max()}}}) == Why::too_many);
  CHECK(why({10, {{11, 1, 1}}}) == Why::wider);
  CHECK(why({10, {{11, 12, 1, true}}}) == Why::wider);
  CHECK_FALSE(why({10, {{11, 1, 1, true}}}));
  CHECK(why({1e12, {{1e12, 1e12, 1}, {1e-6, 1e-6, 1}}}) == Why::lost);
  CHECK(misfit({10, {{1, 1, 1}, {0, 1, 1}}})->rectangle == 1);
}

TEST_CASE("nothing takes no length") {
  const Layout layout = lay({10, {}});
  CHECK(layout.length == 0);
  CHECK(layout.shortest);
  CHECK_FALSE(check({10, {}}, layout));
  CHECK(fits({10, {}}, 0).answer == Fitting::Answer::fits);
}

TEST_CASE("no length is one that nothing fits, and an endless one fits all") {
  const Problem problem{10, {{1, 1, 3}, {10, 2, 1}}};
  CHECK(fits(problem, no_number).answer == Fitting::Answer::does_not);
  CHECK(fits(problem, -1).answer == Fitting::Answer::does_not);
  CHECK(fits(problem, endless).answer == Fitting::Answer::fits);
}

TEST_CASE("ten thousand rectangles, all equal or all different, are laid") {
  holds({1500, {{100, 100, 10'000}}});
  Problem different{1500, {}};
  Problem turning{1500, {}};
  for (int i = 0; i < 10'000; ++i) {
    different.rectangles.push_back({10 + i * 0.0137, 20 + (i * 7919 % 10'000) * 0.0311, 1});
    turning.rectangles.push_back({std::sqrt(3.0 + i), std::sqrt(7.0 + 3 * (i * 7919 % 10'000)), 1, true});
  }
  holds(different);
  holds(turning);
}

TEST_CASE("one enormous rectangle and many tiny ones are laid") {
  Problem enormous{1e9, {{1e9, 1e9, 1}}};
  for (int i = 0; i < 3000; ++i)
    enormous.rectangles.push_back({1 + i * 1e-3, 1 + i * 2e-3, 1});
  holds(enormous);
}

TEST_CASE("a narrow strip of a thousand kilometres is laid") {
  Problem strip{1000, {{1000, 1e9, 5}}};
  for (int i = 0; i < 200; ++i)
    strip.rectangles.push_back({1 + i * 0.1, 1 + i * 0.2, 1, true});
  holds(strip);
  // So narrow that there is no unit for both ways: what may turn lies as it is written.
  Problem narrower{1e-2, {{1e-2, 1e9, 3}, {4e-3, 6e-3, 7, true}}};
  holds(narrower);
}

TEST_CASE("sizes without a unit are laid, many and few") {
  for (const int many : {5, 30, 150}) {
    Problem problem{1500, {}};
    for (int i = 0; i < many; ++i)
      problem.rectangles.push_back(
          {100 * std::sqrt(1.0 + i * 37 % 41), 90 * std::sqrt(2.0 + i * 11 % 43), 1, i % 3 == 0});
    holds(problem);
  }
}
