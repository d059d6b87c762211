// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/choices.hpp"
#include "solver/layout/measure.hpp"
#include "solver/layout/tree.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace gatherwright::layout {

inline constexpr std::size_t most_measures = 4;
using Worths = std::array<double, most_measures>;

/// A box, and the two that it comes of. Of a single rectangle: its kind.
struct Box {
  Ticks across = 0;
  Ticks along = 0;
  int first = 0;
  int second = 0;
  Tree::Join join = Tree::Join::piece;
  bool turned = false;
};

/// What is asked of a box when something is joined to it.
struct Corner {
  Ticks across = 0;
  Ticks along = 0;
  int box = 0;
};
using Corners = std::span<const Corner>;

/// Of choices of rectangles boxes none of which is within another of the same choice, found choice by choice from the
/// smallest on.
class Staircases {
public:
  /// A choice.
  struct State {
    Choice choice;
    Worths worth{};
    int top = 0;     ///< the last kind there is one of
    int drafts = -1; ///< while its boxes are found
    /// Corners afterwards, which go up in width and down in length: where each list begins, and the last ends.
    std::array<int, 4> corners{};
  };
  enum List { all, none_behind, none_beside }; ///< of a state's boxes: of those joined in what way there are none

  /// What tells of most pairs of states that nothing comes of them: the least that any of a state's boxes is across,
  /// and along.
  struct Brief {
    Ticks across = 0;
    Ticks along = 0;
  };

  /// Of choices of so many rectangles at most.
  Staircases(const Choices &choices, std::size_t rectangles);

  /// The state's place; below 0 where there is none.
  int place_of(const Choice &choice) const;
  int place_of(std::uint32_t number) const { return has(number) ? slots_[number] : -1; }
  bool has(std::uint32_t number) const { return ((there_[number / 64] >> (number % 64)) & 1) != 0; }

  const State &state(std::size_t place) const { return states_[place]; }
  const Brief &brief(std::size_t place) const { return briefs_[place]; }
  const Box &box(std::size_t place) const { return boxes_[place]; }
  std::size_t boxes() const { return boxes_.size(); }
  /// Places of the states of so many rectangles, from and up to; nothing before they are finished.
  std::size_t begin_of(std::size_t size) const { return of_size_[size]; }
  std::size_t end_of(std::size_t size) const { return of_size_[size + 1]; }
  double states_of(std::size_t size) const { return static_cast<double>(end_of(size) - begin_of(size)); }

  Corners corners(std::size_t place, List list) const {
    const State &of = states_[place];
    return Corners(corners_).subspan(of.corners[list], of.corners[list + 1] - of.corners[list]);
  }

  /// What is to be joined to a new state, or to one that there is, looked for once there is a box of it.
  struct Joining {
    State state;
    int place = -1;
  };
  void insert(Joining &joining, const Box &box);

  /// The states of so many rectangles have all their boxes.
  void finish(std::size_t size);

private:
  /// A box of a choice whose boxes are not all found yet, in a list that goes up in width and down in length.
  struct Draft {
    Box box;
    int next = -1;
  };
  int find_or_put(const State &state);
  std::size_t slot_of(const Choice &choice) const;
  void grow();

  bool by_number_;                   ///< slots are choices' numbers; else by open addressing
  std::vector<std::uint64_t> there_; ///< a bit for each number
  std::vector<int> slots_;
  std::vector<State> states_;        ///< by how many rectangles they have
  std::vector<Brief> briefs_;        ///< of each
  std::vector<std::size_t> of_size_; ///< where those of a number of rectangles begin
  std::vector<Draft> drafts_;
  std::vector<Box> boxes_;
  std::vector<Corner> corners_;
};

/// One box behind another, from the narrowest pair on: always the least long that both have within the width at hand.
template <class Offer> void join_behind(Corners a, Corners b, Offer offer) {
  if (a.empty() || b.empty()) return;
  std::size_t i = 0;
  std::size_t j = 0;
  while (true) {
    const Ticks across = std::max(a[i].across, b[j].across);
    while (i + 1 < a.size() && a[i + 1].across <= across)
      ++i;
    while (j + 1 < b.size() && b[j + 1].across <= across)
      ++j;
    offer(Box{across, a[i].along + b[j].along, a[i].box, b[j].box, Tree::Join::behind, false});
    const bool more_a = i + 1 < a.size();
    const bool more_b = j + 1 < b.size();
    if (!more_a && !more_b) return;
    if (!more_b || (more_a && a[i + 1].across <= b[j + 1].across))
      ++i;
    else
      ++j;
  }
}

/// One box beside another, within a width: the longer of the two is made less long as far as it goes.
template <class Offer> void join_beside(Corners a, Corners b, Ticks width, Offer offer) {
  for (std::size_t i = 0, j = 0; i < a.size() && j < b.size();) {
    const Ticks across = a[i].across + b[j].across;
    if (across > width) return;
    const Ticks along_a = a[i].along;
    const Ticks along_b = b[j].along;
    offer(Box{across, std::max(along_a, along_b), a[i].box, b[j].box, Tree::Join::beside, false});
    if (along_a >= along_b) ++i;
    if (along_b >= along_a) ++j;
  }
}

} // namespace gatherwright::layout
