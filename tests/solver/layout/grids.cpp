// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/layout/checker.hpp"
#include "solver/layout/grid.hpp"
#include "solver/layout/lay.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace gatherwright::layout;

TEST_CASE("sums in inches are what they are on paper") {
  for (int sixteenths = 100; sixteenths <= 400; ++sixteenths) {
    const double side = sixteenths / 16.0 * 25.4;
    for (int times = 2; times <= 9; ++times) {
      const double width = times * sixteenths / 16.0 * 25.4;
      INFO(sixteenths << " sixteenths, " << times << " times");
      const Layout layout = lay({width, {{side, 254, times}}});
      CHECK(layout.length == 254);
      CHECK(layout.shortest);
      CHECK(lay({width - 25.4 / 16, {{side, 254, times}}}).length == 508);
    }
  }
}

TEST_CASE("sums of thirds and of tenths are what they are on paper") {
  CHECK(lay({1000, {{1000.0 / 3, 10, 3}}}).length == 10);
  CHECK(lay({0.3, {{0.1, 0.7, 3}}}).length == 0.7);
  CHECK(lay({1480.0 * 0.98, {{1480.0 * 0.98 / 7, 10, 7}}}).length == Approx(10));
}

TEST_CASE("a unit is found of which all sizes are multiples, and is no smaller than need be") {
  const Grid grid = on_grid({1480, {{520, 585, 2}, {240, 140, 2}}});
  CHECK(grid.strip.width == 37);
  CHECK(grid.across.length(grid.strip.width) == 1480);
  CHECK(grid.along.length(117) == 585);
  const Grid turning = on_grid({1480, {{520, 585, 2}, {240, 140, 2, true}}});
  CHECK(turning.strip.width == 296);
  CHECK(turning.across == turning.along);
}

TEST_CASE("sizes without a unit fit where they sum to the width but for rounding") {
  const double first = 1000 * std::sqrt(0.2);
  const double second = 1000 / M_PI;
  const Problem problem{1000, {{first, 50, 1}, {second, 20 * M_E, 1}, {1000 - first - second, 52, 1}}};
  const Layout layout = lay(problem);
  CHECK(layout.length == Approx(20 * M_E).epsilon(1e-12));
  CHECK(layout.shortest);
  CHECK_FALSE(check(problem, layout));
  Problem wider = problem;
  wider.rectangles[2].across += 1e-5;
  CHECK(lay(wider).length > 100);
}

TEST_CASE("equal kinds are one, also where one of them is written turned") {
  CHECK(on_grid({10, {{2, 3, 1}, {2, 3, 2}}}).strip.kinds.size() == 1);
  const Grid grid = on_grid({10, {{2, 3, 1, true}, {3, 2, 2, true}}});
  REQUIRE(grid.strip.kinds.size() == 1);
  CHECK(grid.strip.kinds[0].count == 3);
  CHECK(grid.source[0].turned != grid.source[1].turned);
  CHECK(on_grid({10, {{2, 3, 1, true}, {2, 3, 2}}}).strip.kinds.size() == 2);
  CHECK(on_grid({10, {{3, 3, 1, true}, {3, 3, 2}}}).strip.kinds.size() == 1);
}

TEST_CASE("what may turn and does not fit both ways lies as it fits") {
  const Problem problem{10, {{12, 3, 1, true}, {3, 12, 1, true}}};
  const Layout layout = lay(problem);
  CHECK(layout.length == 12);
  CHECK(layout.shortest);
  CHECK(layout.placements[0].turned);
  CHECK_FALSE(layout.placements[1].turned);
  CHECK_FALSE(check(problem, layout));
}
