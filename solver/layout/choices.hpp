// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/strip.hpp"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
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
  Choice operator-(const Choice &other) const { return {fields - other.fields, number - other.number}; }
};

class Choices {
public:
  /// Nothing where the fields take more bits than there are.
  static std::optional<Choices> of(const Strip &strip);

  Choice one(int kind) const { return one_[kind]; }
  Choice all() const;
  bool enough_for(const Choice &a, const Choice &b) const {
    return (((all_ | guard_) - (a.fields + b.fields)) & guard_) == guard_;
  }
  /// Of how many there are a table is worth while; 0: too many.
  std::uint32_t numbered() const { return numbered_; }
  /// How many choices there are of choices of that many rectangles, all together.
  double parts_of_size(std::size_t rectangles) const { return parts_[rectangles]; }

  /// Goes through all choices of that many rectangles, which are numbered. `visit` is given the numbers of all parts of
  /// each, from 0 to its own, so that the first and the last are parts of one whole, and the second and the last but
  /// one; it says whether to go on.
  template <class Visit> bool for_all(std::size_t rectangles, Visit visit) const {
    std::vector<std::vector<std::uint32_t>> parts(counts_.size() + 1);
    parts[0] = {0};
    return for_all(0, static_cast<int>(rectangles), parts, visit);
  }

  /// The numbers of all parts of a choice, which is numbered, in the same order.
  void parts_of(std::uint32_t number, std::vector<std::uint32_t> &parts) const;

private:
  template <class Visit>
  bool for_all(std::size_t kind, int left, std::vector<std::vector<std::uint32_t>> &parts, Visit &visit) const;

  std::vector<Choice> one_;
  std::vector<int> counts_;
  std::uint64_t guard_ = 0;
  std::uint64_t all_ = 0;
  std::uint32_t numbered_ = 0;
  std::vector<double> parts_;
};

/// Goes through how many of each kind are taken, with all parts of those taken so far.
template <class Visit>
bool Choices::for_all(std::size_t kind, int left, std::vector<std::vector<std::uint32_t>> &parts, Visit &visit) const {
  if (left == 0) return visit(std::span<const std::uint32_t>(parts[kind]));
  if (kind == counts_.size()) return true;
  const std::vector<std::uint32_t> &before = parts[kind];
  std::vector<std::uint32_t> &more = parts[kind + 1];
  const std::size_t size = before.size();
  more = before;
  for (int taken = 0;; ++taken) {
    if (!for_all(kind + 1, left - taken, parts, visit)) return false;
    if (taken == std::min(left, counts_[kind])) return true;
    const std::uint32_t number = static_cast<std::uint32_t>(taken + 1) * one_[kind].number;
    more.resize(size * (static_cast<std::size_t>(taken) + 2));
    for (std::size_t i = 0; i < size; ++i)
      more[size * (static_cast<std::size_t>(taken) + 1) + i] = before[i] + number;
  }
}

} // namespace gatherwright::layout
