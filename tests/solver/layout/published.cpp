// SPDX-License-Identifier: GPL-3.0-or-later
// Figures from outside: tests/data/README.md names the sources.

#include "solver/layout/checker.hpp"
#include "solver/layout/lay.hpp"
#include "tests/solver/layout/sets.hpp"
#include "tests/where.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace gatherwright::layout;

TEST_CASE("six shirts take no more cloth than the handbook's own cutting of 1838") {
  for (auto [figure, set] : layout_sets::cutting_pieces(test_data("cutting_pieces.csv"))) {
    INFO("figure " << figure);
    const Layout layout = lay(set.problem);
    CHECK(layout.length <= set.length);
    CHECK(layout.length <= 1.004 * layout.bound);
    CHECK_FALSE(check(set.problem, layout));
    // The same in millimetres, of which the nail of 2 1/4 in is 57.15: sums are as they are in nails.
    for (Rectangle &rectangle : set.problem.rectangles) {
      rectangle.across *= 57.15;
      rectangle.along *= 57.15;
    }
    set.problem.width *= 57.15;
    CHECK(lay(set.problem).length == Approx(57.15 * layout.length).epsilon(1e-12));
  }
}

TEST_CASE("published sets that edge-to-edge cuts can take apart are laid without waste") {
  const auto sets = layout_sets::strip_instances(test_data("strip_instances.csv"));
  for (const char *name : {"C1_1", "C2_1", "BKW1", "C3_1", "C3_3"}) {
    INFO(name);
    const auto &set = sets.at(name);
    const Layout layout = lay(set.problem);
    CHECK(layout.length == set.length);
    CHECK(layout.shortest);
  }
}

TEST_CASE("a published set that edge-to-edge cuts cannot take apart is proved to need more") {
  // By our own exhaustive search; no source says so.
  const auto set = layout_sets::strip_instances(test_data("strip_instances.csv")).at("C1_2");
  const Layout layout = lay(set.problem);
  CHECK(layout.length == set.length + 1);
  CHECK(layout.shortest);
  CHECK(layout.certified == set.length);
}

TEST_CASE("the larger published sets are laid with little waste") {
  double sum = 0;
  int sets = 0;
  for (const auto &[name, set] : layout_sets::strip_instances(test_data("strip_instances.csv")))
    if (name[1] == '3' || name[1] == '4') {
      const Layout layout = lay(set.problem);
      CHECK(layout.bound == set.length);
      sum += layout.length / set.length;
      ++sets;
    }
  REQUIRE(sets == 6);
  CHECK(sum / sets <= 1.025 + 1e-12);
}
