// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/strip.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace gatherwright::layout {

/// Choices of so many rectangles of each kind, as numbers that are added where choices are joined.
///
/// `fields` has a field of bits for each kind, whose highest bit stays 0, so that one subtraction tells whether there
/// are as many rectangles as two choices have together. `number` counts all choices, where they are few enough for a
/// table.
struct Choice {
  std::uint64_t fields = 0;
  std::uint32_t number = 0;

  Choice operator+(const Choice &other) const { return {fields + other.fields, number + other.number}; }
};

class Choices {
public:
  /// Nothing where the fields take more bits than there are.
  static std::optional<Choices> of(const Strip &strip);

  Choice one(int kind) const { return one_[kind]; }
  bool enough_for(const Choice &a, const Choice &b) const {
    return (((all_ | guard_) - (a.fields + b.fields)) & guard_) == guard_;
  }
  /// Of how many there are a table is worth while; 0: too many.
  std::uint32_t numbered() const { return numbered_; }
  /// How many choices there are of choices of that many rectangles, all together.
  double parts_of_size(std::size_t rectangles) const { return parts_[rectangles]; }
  const std::vector<int> &counts() const { return counts_; }

private:
  std::vector<Choice> one_;
  std::vector<int> counts_;
  std::uint64_t guard_ = 0;
  std::uint64_t all_ = 0;
  std::uint32_t numbered_ = 0;
  std::vector<double> parts_;
};

} // namespace gatherwright::layout
