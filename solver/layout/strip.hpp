// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

/// The problem in whole numbers, on which every sum is exact.
namespace gatherwright::layout {

/// A length on the grid.
using Ticks = std::int64_t;

/// Equal rectangles on the grid. What may turn fits the strip both ways and has two different sides.
struct Kind {
  Ticks across = 0;
  Ticks along = 0;
  int count = 1;
  bool may_turn = false;

  double area() const { return static_cast<double>(across) * static_cast<double>(along); }
  Ticks least_across() const { return may_turn ? std::min(across, along) : across; }
  Ticks least_along() const { return may_turn ? std::min(across, along) : along; }
};

struct Strip {
  Ticks width = 0;
  std::vector<Kind> kinds;

  int rectangles() const {
    int sum = 0;
    for (const Kind &kind : kinds)
      sum += kind.count;
    return sum;
  }
  double area() const {
    double sum = 0;
    for (const Kind &kind : kinds)
      sum += kind.area() * kind.count;
    return sum;
  }
};

/// What may still be done, in steps of a few instructions each: counted by what is done, never by the time it takes, so
/// that the same problem ends at the same place on every machine.
class Allowance {
public:
  explicit Allowance(std::int64_t steps) : left_(steps) {}
  /// False once there is nothing left.
  bool spend(std::int64_t steps) {
    left_ -= steps;
    return left_ >= 0;
  }
  bool spent() const { return left_ < 0; }
  std::int64_t left() const { return left_; }

private:
  std::int64_t left_;
};

} // namespace gatherwright::layout
