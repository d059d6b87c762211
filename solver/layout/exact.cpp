// SPDX-License-Identifier: GPL-3.0-or-later
#include "layout/exact.hpp"

#include "layout/choices.hpp"
#include "layout/measure.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <utility>

namespace gatherwright::layout {

namespace {

constexpr std::size_t most_measures = 4;

/// A box that a choice of rectangles fills, and the two that it is joined of. Of a single rectangle: its kind.
struct Box {
  Ticks across = 0;
  Ticks along = 0;
  int first = 0;
  int second = 0;
  int next = -1; ///< the next wider and less long one of the same choice
  Tree::Join join = Tree::Join::piece;
  bool turned = false;
};

/// A choice with its least boxes.
struct State {
  Choice choice;
  int boxes = -1;
  double area = 0;
  std::array<double, most_measures> worth{};
};

/// Finds the states of choices: in a table by their number, or by open addressing.
class Index {
public:
  explicit Index(std::uint32_t numbered) : by_number_(numbered), slots_(numbered ? numbered : 1 << 12, -1) {}

  /// The state's place, below 0 where there is none.
  int at(std::uint32_t number) const { return slots_[number]; }

  /// The state's place, where it is put if it is new.
  int find(std::vector<State> &states, const Choice &choice) {
    if (!by_number_ && 2 * (states.size() + 1) > slots_.size()) grow(states);
    std::size_t slot = by_number_ ? choice.number : hash(choice);
    if (!by_number_)
      while (slots_[slot] >= 0 && states[slots_[slot]].choice.fields != choice.fields)
        slot = (slot + 1) & (slots_.size() - 1);
    if (slots_[slot] < 0) {
      slots_[slot] = static_cast<int>(states.size());
      states.push_back({choice, -1, 0, {}});
    }
    return slots_[slot];
  }

private:
  std::size_t hash(const Choice &choice) const {
    return static_cast<std::size_t>((choice.fields * 0x9E3779B97F4A7C15u) >> 20) & (slots_.size() - 1);
  }
  void grow(const std::vector<State> &states) {
    slots_.assign(2 * slots_.size(), -1);
    for (std::size_t i = 0; i < states.size(); ++i) {
      std::size_t slot = hash(states[i].choice);
      while (slots_[slot] >= 0)
        slot = (slot + 1) & (slots_.size() - 1);
      slots_[slot] = static_cast<int>(i);
    }
  }
  bool by_number_;
  std::vector<int> slots_;
};

class Search {
public:
  Search(const Strip &strip, const Choices &choices, Ticks target, const Bounds &bounds, Allowance &allowance)
      : strip_(strip), choices_(choices), target_(target), allowance_(allowance),
        total_(strip.area() * (1 + 1e-9)), index_(choices.numbered()), of_size_(strip.rectangles() + 2, 0) {
    add_measure(sizes_as_prices(strip, Run::across), Run::across);
    add_measure(bounds.across(), Run::across);
    add_measure(bounds.along(), Run::along);
    add_measure(sizes_as_prices(strip, Run::along), Run::along);
  }

  Exactly run() {
    for (const Measure &measure : measures_)
      if (measure.allowed < 0) return {Exactly::Answer::none, {}};
    singles();
    const auto all = static_cast<std::size_t>(strip_.rectangles());
    for (std::size_t size = 2; size <= all; ++size)
      if (!fill(size)) return {};
    if (of_size_[all] == of_size_[all + 1]) return {Exactly::Answer::none, {}};
    int box = states_.back().boxes;
    while (boxes_[box].next >= 0)
      box = boxes_[box].next;
    Exactly found{Exactly::Answer::found, {}};
    found.tree.root = build(box, found.tree);
    return found;
  }

private:
  void add_measure(const Prices &prices, Run run) {
    if (prices.straight.empty()) return;
    if (auto one = measure(strip_, prices, run, target_)) measures_.push_back(std::move(*one));
  }

  void singles() {
    for (int kind = 0; kind < static_cast<int>(strip_.kinds.size()); ++kind) {
      State single{choices_.one(kind), -1, strip_.kinds[kind].area(), {}};
      for (std::size_t i = 0; i < measures_.size(); ++i)
        single.worth[i] = measures_[i].of_kind[kind];
      const Kind &of = strip_.kinds[kind];
      offer(single, {of.across, of.along, kind, 0, -1, Tree::Join::piece, false});
      if (of.may_turn) offer(single, {of.along, of.across, kind, 0, -1, Tree::Join::piece, true});
      if (single.boxes >= 0) states_[index_.find(states_, single.choice)] = single;
    }
    of_size_[2] = states_.size();
  }

  /// All choices of so many rectangles that fill a box, from pairs of smaller ones: of those that there are, or of all
  /// that there could be, whichever are fewer.
  bool fill(std::size_t size) {
    double pairs = 0;
    for (std::size_t part = 1; 2 * part <= size; ++part)
      pairs += static_cast<double>(of_size_[part + 1] - of_size_[part]) *
               static_cast<double>(of_size_[size - part + 1] - of_size_[size - part]);
    const bool all = choices_.numbered() && choices_.parts_of_size(size) < 2 * pairs;
    const bool done = all ? fill_from_all(size) : fill_from_pairs(size);
    of_size_[size + 1] = states_.size();
    return done;
  }

  bool fill_from_pairs(std::size_t size) {
    for (std::size_t part = 1; 2 * part <= size; ++part)
      for (std::size_t i = of_size_[part]; i < of_size_[part + 1]; ++i) {
        const std::size_t from = 2 * part == size ? i : of_size_[size - part];
        const std::size_t to = of_size_[size - part + 1];
        if (!allowance_.spend(static_cast<std::int64_t>(to - from))) return false;
        for (std::size_t j = from; j < to; ++j)
          if (choices_.enough_for(states_[i].choice, states_[j].choice) && !join(i, j)) return false;
      }
    return true;
  }

  bool fill_from_all(std::size_t size) {
    parts_.assign(choices_.counts().size() + 1, {});
    parts_[0] = {0};
    return fill_from_all(0, static_cast<int>(size));
  }

  /// Goes through how many of each kind are taken; `parts_` has the numbers of all choices of those taken so far, going
  /// up, so that the first and the last are parts of one whole, and the second and the last but one.
  bool fill_from_all(std::size_t kind, int left) {
    const std::vector<std::uint32_t> &parts = parts_[kind];
    if (left == 0) {
      if (!allowance_.spend(static_cast<std::int64_t>(parts.size() / 2))) return false;
      for (std::size_t i = 1, j = parts.size() - 2; i <= j; ++i, --j) {
        const int first = index_.at(parts[i]);
        const int second = index_.at(parts[j]);
        if (first >= 0 && second >= 0 && !join(first, second)) return false;
      }
      return true;
    }
    if (kind == choices_.counts().size()) return true;
    std::vector<std::uint32_t> &more = parts_[kind + 1];
    more = parts;
    for (int taken = 0; taken <= std::min(left, choices_.counts()[kind]); ++taken) {
      if (taken > 0)
        for (std::size_t i = 0; i < parts.size(); ++i)
          more.push_back(parts[i] + static_cast<std::uint32_t>(taken) * choices_.one(static_cast<int>(kind)).number);
      if (!fill_from_all(kind + 1, left - taken)) return false;
    }
    return true;
  }

  /// False once the allowance is spent.
  bool join(std::size_t first, std::size_t second) {
    if (!allowance_.spend(20)) return false;
    const int a = states_[first].boxes;
    const int b = states_[second].boxes;
    State joined{states_[first].choice + states_[second].choice, -1, states_[first].area + states_[second].area, {}};
    for (std::size_t i = 0; i < measures_.size(); ++i)
      joined.worth[i] = states_[first].worth[i] + states_[second].worth[i];
    const bool large = 2 * joined.area > total_;
    int place = -1; // looked for once it is needed
    const auto offer_to = [&](const Box &box) {
      if (!may_be(joined, box) || (large && takes_one_more(joined.choice, box))) return;
      if (place < 0) {
        place = index_.find(states_, joined.choice);
        states_[place].worth = joined.worth;
        states_[place].area = joined.area;
      }
      insert(states_[place], box);
    };
    behind(a, b, offer_to);
    beside(a, b, offer_to);
    return true;
  }

  /// One box behind another, from the narrowest pair on: always the longest that both are within the width at hand.
  template <class Offer> void behind(int a, int b, const Offer &offer_to) const {
    while (true) {
      const Ticks across = std::max(boxes_[a].across, boxes_[b].across);
      if (across > strip_.width) return;
      while (boxes_[a].next >= 0 && boxes_[boxes_[a].next].across <= across)
        a = boxes_[a].next;
      while (boxes_[b].next >= 0 && boxes_[boxes_[b].next].across <= across)
        b = boxes_[b].next;
      offer_to({across, boxes_[a].along + boxes_[b].along, a, b, -1, Tree::Join::behind, false});
      const int next_a = boxes_[a].next;
      const int next_b = boxes_[b].next;
      if (next_a < 0 && next_b < 0) return;
      if (next_b < 0 || (next_a >= 0 && boxes_[next_a].across <= boxes_[next_b].across))
        a = next_a;
      else
        b = next_b;
    }
  }

  /// One box beside another: the longer of the two is made less long as far as it goes.
  template <class Offer> void beside(int a, int b, const Offer &offer_to) const {
    while (a >= 0 && b >= 0) {
      const Ticks across = boxes_[a].across + boxes_[b].across;
      if (across > strip_.width) return;
      const Ticks along_a = boxes_[a].along;
      const Ticks along_b = boxes_[b].along;
      offer_to({across, std::max(along_a, along_b), a, b, -1, Tree::Join::beside, false});
      if (along_a >= along_b) a = boxes_[a].next;
      if (along_b >= along_a) b = boxes_[b].next;
    }
  }

  bool may_be(const State &state, const Box &box) const {
    if (box.across > strip_.width || box.along > target_) return false;
    for (std::size_t i = 0; i < measures_.size(); ++i)
      if (measures_[i].empty(box.across, box.along, state.worth[i]) > measures_[i].allowed) return false;
    return true;
  }

  /// Whether beside the narrower of two boxes, or behind the less long, one of the rectangles fits that are not chosen.
  /// Of a box with more than half of all area, a layout with the box then is no shorter than one where that rectangle is
  /// in it, which is found by itself. (Any two such boxes of a layout are one within the other, so that the rectangle
  /// goes from an outer one to an inner one, and out of none: the boxes that rectangles are in only get smaller.)
  bool takes_one_more(const Choice &choice, const Box &box) const {
    const Box &a = boxes_[box.first];
    const Box &b = boxes_[box.second];
    const bool behind = box.join == Tree::Join::behind;
    const Ticks across = behind ? std::max(a.across, b.across) - std::min(a.across, b.across)
                                : (a.along < b.along ? a.across : b.across);
    const Ticks along = behind ? (a.across < b.across ? a.along : b.along)
                               : std::max(a.along, b.along) - std::min(a.along, b.along);
    if (across == 0 || along == 0) return false;
    for (int kind = 0; kind < static_cast<int>(strip_.kinds.size()); ++kind) {
      const Kind &of = strip_.kinds[kind];
      const bool fits = (of.across <= across && of.along <= along) ||
                        (of.may_turn && of.along <= across && of.across <= along);
      if (fits && choices_.one_left(choice, kind)) return true;
    }
    return false;
  }

  void offer(State &state, const Box &box) {
    if (may_be(state, box)) insert(state, box);
  }

  /// The list goes up in width and down in length; a box that another is within is not in it.
  void insert(State &state, Box box) {
    int *link = &state.boxes;
    while (*link >= 0 && boxes_[*link].across <= box.across) {
      if (boxes_[*link].along <= box.along) return;
      if (boxes_[*link].across == box.across) break;
      link = &boxes_[*link].next;
    }
    int behind = *link;
    while (behind >= 0 && boxes_[behind].along >= box.along)
      behind = boxes_[behind].next;
    box.next = behind;
    *link = static_cast<int>(boxes_.size());
    boxes_.push_back(box);
  }

  int build(int at, Tree &tree) const {
    const Box &box = boxes_[at];
    if (box.join == Tree::Join::piece) return tree.piece(strip_, box.first, box.turned);
    const int first = build(box.first, tree);
    return tree.join(box.join, first, build(box.second, tree));
  }

  const Strip &strip_;
  const Choices &choices_;
  Ticks target_;
  Allowance &allowance_;
  std::vector<Measure> measures_;
  double total_ = 0;              ///< area, and a little for rounding
  std::vector<Box> boxes_;
  Index index_;
  std::vector<State> states_;        ///< by how many rectangles they have
  std::vector<std::size_t> of_size_; ///< where those of a number of rectangles begin
  std::vector<std::vector<std::uint32_t>> parts_;
};

} // namespace

Exactly shortest_within(const Strip &strip, Ticks target, const Bounds &bounds, Allowance &allowance) {
  if (strip.kinds.empty()) return {Exactly::Answer::found, {}};
  const auto choices = Choices::of(strip);
  if (!choices) return {};
  return Search(strip, *choices, target, bounds, allowance).run();
}

} // namespace gatherwright::layout
