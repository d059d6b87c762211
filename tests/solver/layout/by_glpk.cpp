// SPDX-License-Identifier: GPL-3.0-or-later
// What is laid beside the optimum of a mixed-integer model that knows nothing of how we search.

#include "solver/layout/lay.hpp"
#include "tests/solver/layout/glpk_model.hpp"

#include <catch2/catch.hpp>
#include <random>

using namespace gatherwright::layout;

TEST_CASE("what is laid of a few rectangles is as short as GLPK's optimum of a model of edge-to-edge cuts") {
  for (std::uint32_t seed = 1; seed <= 25; ++seed) {
    INFO("seed " << seed);
    std::mt19937 random(seed);
    const auto below = [&](int end) { return static_cast<int>(random() % static_cast<std::uint32_t>(end)); };
    Problem problem{static_cast<double>(10 + below(10)), {}};
    const int size = 3 + below(2);
    for (int i = 0; i < size; ++i)
      problem.rectangles.push_back(
          {static_cast<double>(1 + below(9)), static_cast<double>(1 + below(9)), 1, below(3) == 0});
    const auto shortest = layout_sets::shortest_by_glpk(problem);
    REQUIRE(shortest);
    CHECK(lay(problem).length == Approx(*shortest).epsilon(1e-6));
  }
}
