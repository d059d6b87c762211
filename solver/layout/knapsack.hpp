// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/strip.hpp"

#include <cstdint>
#include <vector>

namespace gatherwright::layout {

/// Bars to choose from, at most so many of each.
struct Bar {
  Ticks size = 0; ///< above 0
  std::int64_t price = 0;
  int count = 1;
};

/// A choice of bars by its sum of sizes, and what it is worth.
struct Worth {
  Ticks size = 0;
  std::int64_t price = 0;
};

/// Of all choices within the length those that no smaller one is worth as much as, going up; empty where there are more
/// than `most`.
std::vector<Worth> worth(const std::vector<Bar> &bars, Ticks length, std::size_t most);

/// The price of what may be chosen within a length, by such a list.
std::int64_t price_within(const std::vector<Worth> &choices, Ticks length);

/// The dearest choice within the length: how many of each bar. Where lists grow too long it may be a little less, and
/// where the allowance is spent.
std::vector<int> dearest(const std::vector<Bar> &bars, Ticks length, Allowance &allowance);

} // namespace gatherwright::layout
