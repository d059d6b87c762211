// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/bounds.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace gatherwright;

TEST_CASE("a length of cloth is a number from 0 to the longest, or from the shortest on where it must be above 0") {
  const double longest = bounds::longest_length.mm;
  const double shortest = bounds::shortest_length.mm;
  const auto is_one = [](double mm, bool above_0) { return !fault_of_length(Length{mm}, above_0, Unit::cm); };
  for (const double length : {shortest, 1.0, longest}) {
    CHECK(is_one(length, false));
    CHECK(is_one(length, true));
  }
  for (const double length : {0.0, -0.0, std::nextafter(shortest, 0.0)}) {
    CHECK(is_one(length, false));
    CHECK_FALSE(is_one(length, true));
  }
  for (const double length : {-std::numeric_limits<double>::denorm_min(), -1.0, std::nextafter(longest, 1e9),
                              std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity(),
                              std::numeric_limits<double>::quiet_NaN()}) {
    CHECK_FALSE(is_one(length, false));
    CHECK_FALSE(is_one(length, true));
  }
  CHECK(fault_of_length(Length{-25.4}, false, Unit::in)->what == "this comes to -1 in");
}
