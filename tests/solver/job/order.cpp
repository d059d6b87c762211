// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/order.hpp"

#include "tests/draft.hpp"

#include <catch2/catch.hpp>

#include <vector>

using namespace gatherwright;
using namespace gatherwright::tests;

TEST_CASE("lengths come after those that they name, and a ring of them is told from its first") {
  // A free length names those that its range and its aim are made of.
  const Job straight = job_of(Draft{.lengths = {{"all", "2 * half + 1 cm"},
                                                {.name = "half", .from = "least", .aim = "wished"},
                                                {"wished", "30 cm"},
                                                {"least", "wished - 4 cm"}},
                                    .joins = {{"hem", "all", "20 cm"}}});
  CHECK(order_of_lengths(straight) == std::vector<int>{2, 3, 1, 0});
  CHECK(dependencies_of_lengths(straight).cycles.empty());

  Job ring = straight;
  ring.lengths[2].is = Formula::of_symbol(ring.symbol_of(LengthId(3)), "least");
  CHECK(order_of_lengths(ring).empty()); // the others need them
  CHECK(dependencies_of_lengths(ring).cycles == std::vector<std::vector<int>>{{2, 3, 2}});
}
