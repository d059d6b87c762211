// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <vector>

/// Where labels go along a line so that none lies over another.
namespace gatherwright::paper {

/// A label wants to stand at `wanted` and may reach to `highest` at most.
struct LabelPlace {
  double wanted = 0;
  double highest = 0;
};

/// Places at least `apart` from one another, none below `lowest` nor, where there is room at all, beyond its own
/// highest, with the least sum of squared distances from those wanted but for what those ends ask. `wanted` must rise.
std::vector<double> spread_labels(const std::vector<LabelPlace> &labels, double apart, double lowest);

/// Things in a row on `length` millimetres are numbered by ones, twos, fives, tens and so on: the smallest step at
/// which a number `widest` wide has room.
std::size_t number_step(std::size_t things, double length, double widest);

} // namespace gatherwright::paper
