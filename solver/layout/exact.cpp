// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/layout/exact.hpp"

#include "solver/layout/choices.hpp"
#include "solver/layout/measure.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <utility>

namespace gatherwright::layout {

namespace {

constexpr std::size_t most_measures = 4;
constexpr std::size_t most_boxes = 4'000'000;

/// A box that a choice of rectangles fills, and the two that it is joined of. Of a single rectangle: its kind.
struct Box {
  Ticks across = 0;
  Ticks along = 0;
  int first = 0;
  int second = 0;
  Tree::Join join = Tree::Join::piece;
  bool turned = false;
};

/// A box of a choice whose boxes are not all found yet, in a list that goes up in width and down in length.
struct Draft {
  Box box;
  int next = -1;
};

/// What is asked of a box when it is joined.
struct Corner {
  Ticks across = 0;
  Ticks along = 0;
  int box = 0;
};

/// A choice with its least boxes.
struct State {
  Choice choice;
  std::array<double, most_measures> worth{};
  int top = 0;     ///< the last kind there is one of
  int drafts = -1; ///< while they are found
  /// Corners afterwards, which go up in width and down in length: all of them, those not joined one behind the other,
  /// and those not joined side by side.
  std::array<int, 4> corners{};
};

/// What tells of most pairs of states that nothing comes of them: the least that any of a state's boxes is across, and
/// along, and what it is worth by the first two measures.
struct Brief {
  Ticks across = 0;
  Ticks along = 0;
  std::array<double, 2> worth{};
};

/// Finds the states of choices: in a table by their number, or by open addressing.
class Index {
public:
  explicit Index(std::uint32_t numbered)
      : by_number_(numbered), there_(numbered / 64 + 1), slots_(numbered ? numbered : 1 << 12, -1) {}

  bool has(std::uint32_t number) const { return ((there_[number / 64] >> (number % 64)) & 1) != 0; }

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
      if (by_number_) there_[choice.number / 64] |= std::uint64_t{1} << (choice.number % 64);
      slots_[slot] = static_cast<int>(states.size());
      states.push_back({choice, {}, 0, -1, {}});
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
  std::vector<std::uint64_t> there_; ///< a bit for each number
  std::vector<int> slots_;
};

class Search {
public:
  Search(const Strip &strip, const Choices &choices, Ticks target, const Bounds &bounds, Allowance &allowance)
      : strip_(strip), choices_(choices), target_(target), allowance_(allowance), index_(choices.numbered()),
        of_size_(strip.rectangles() + 2, 0) {
    add_measure(bounds.across(), Run::across);
    add_measure(bounds.along(), Run::along);
    add_measure(sizes_as_prices(strip, Run::across), Run::across);
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
    Exactly found{Exactly::Answer::found, {}};
    found.tree.root = build(corners_[states_.back().corners[1] - 1].box, found.tree);
    return found;
  }

private:
  void add_measure(const Prices &prices, Run run) {
    if (prices.straight.empty()) return;
    if (auto one = measure(strip_, prices, run, target_)) measures_.push_back(std::move(*one));
  }

  void singles() {
    for (int kind = 0; kind < static_cast<int>(strip_.kinds.size()); ++kind) {
      const Kind &of = strip_.kinds[kind];
      State single{choices_.one(kind), {}, kind, -1, {}};
      for (std::size_t i = 0; i < measures_.size(); ++i)
        single.worth[i] = measures_[i].of_kind[kind];
      for (const bool turned : {false, true}) {
        const Box box{turned ? of.along : of.across, turned ? of.across : of.along, kind, 0, Tree::Join::piece, turned};
        if ((!turned || of.may_turn) && may_be(single, box)) insert(single, box);
      }
      if (single.drafts >= 0) states_[index_.find(states_, single.choice)] = single;
    }
    finish(1);
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
    finish(size);
    return done && boxes_.size() <= most_boxes;
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
        if (!index_.has(parts[i]) || !index_.has(parts[j])) continue;
        if (!join(index_.at(parts[i]), index_.at(parts[j]))) return false;
      }
      return true;
    }
    if (kind == choices_.counts().size()) return true;
    std::vector<std::uint32_t> &more = parts_[kind + 1];
    const std::size_t size = parts.size();
    const std::uint32_t one = choices_.one(static_cast<int>(kind)).number;
    const int most = std::min(left, choices_.counts()[kind]);
    more.resize(size);
    std::copy(parts.begin(), parts.end(), more.begin());
    for (int taken = 0; taken <= most; ++taken) {
      more.resize(size * (static_cast<std::size_t>(taken) + 1));
      if (taken > 0)
        for (std::size_t i = 0; i < size; ++i)
          more[size * static_cast<std::size_t>(taken) + i] = parts[i] + static_cast<std::uint32_t>(taken) * one;
      if (!fill_from_all(kind + 1, left - taken)) return false;
    }
    return true;
  }

  /// The states of a size have all their boxes.
  void finish(std::size_t size) {
    for (std::size_t i = of_size_[size]; i < states_.size(); ++i) {
      State &state = states_[i];
      const std::size_t begin = boxes_.size();
      for (int at = state.drafts; at >= 0; at = drafts_[at].next)
        boxes_.push_back(drafts_[at].box);
      const std::array<std::optional<Tree::Join>, 3> without{std::nullopt, Tree::Join::behind, Tree::Join::beside};
      for (std::size_t list = 0; list < without.size(); ++list) {
        state.corners[list] = static_cast<int>(corners_.size());
        for (std::size_t box = begin; box < boxes_.size(); ++box)
          if (boxes_[box].join != without[list])
            corners_.push_back({boxes_[box].across, boxes_[box].along, static_cast<int>(box)});
      }
      state.corners[without.size()] = static_cast<int>(corners_.size());
      briefs_.push_back({boxes_[begin].across, boxes_.back().along, {state.worth[0], state.worth[1]}});
    }
    drafts_.clear();
    of_size_[size + 1] = states_.size();
  }

  using Corners = std::span<const Corner>;
  Corners corners(const State &state, std::size_t list) const {
    return Corners(corners_).subspan(state.corners[list], state.corners[list + 1] - state.corners[list]);
  }

  /// False once the allowance is spent.
  ///
  /// Three boxes one behind another can be joined two ways, and more of them more ways: it is enough that the one with
  /// the last kind is joined to all others, and is not itself joined like that. (Where it has as small a box that is,
  /// the same holds of the parts of that one.) The same side by side.
  bool join(std::size_t first, std::size_t second) {
    const bool worth_behind = is_hopeful(first, second, Tree::Join::behind);
    const bool worth_beside = is_hopeful(first, second, Tree::Join::beside);
    if (!worth_behind && !worth_beside) return allowance_.spend(1);
    const State &a = states_[first];
    const State &b = states_[second];
    Joining joining{{a.choice + b.choice, {}, std::max(a.top, b.top), -1, {}}, -1};
    for (std::size_t i = 0; i < measures_.size(); ++i)
      joining.state.worth[i] = a.worth[i] + b.worth[i];
    const std::array<Corners, 3> of_a{corners(a, 0), corners(a, 1), corners(a, 2)};
    const std::array<Corners, 3> of_b{corners(b, 0), corners(b, 1), corners(b, 2)};
    const bool a_has_last = a.top >= b.top;
    const bool b_has_last = b.top >= a.top;
    asked_ = 10;
    if (a_has_last) {
      if (worth_behind) behind(of_a[1], of_b[0], joining);
      if (worth_beside) beside(of_a[2], of_b[0], joining);
    }
    if (b_has_last && first != second) {
      if (worth_behind) behind(of_b[1], of_a[0], joining);
      if (worth_beside) beside(of_b[2], of_a[0], joining);
    }
    return allowance_.spend(asked_);
  }

  /// Whether the least box that there could be of two states' may be.
  bool is_hopeful(std::size_t first, std::size_t second, Tree::Join join) const {
    const Brief &a = briefs_[first];
    const Brief &b = briefs_[second];
    const bool behind = join == Tree::Join::behind;
    const Ticks across = behind ? std::max(a.across, b.across) : a.across + b.across;
    const Ticks along = behind ? a.along + b.along : std::max(a.along, b.along);
    if (across > strip_.width || along > target_) return false;
    for (std::size_t i = 0; i < std::min(measures_.size(), a.worth.size()); ++i)
      if (measures_[i].empty(across, along, a.worth[i] + b.worth[i]) > measures_[i].allowed) return false;
    return true;
  }

  /// What two states are joined to, looked for once there is a box of it.
  struct Joining {
    State state;
    int place = -1;
  };

  void offer(Joining &joining, const Box &box) {
    ++asked_;
    if (!may_be(joining.state, box)) return;
    if (joining.place < 0) {
      joining.place = index_.find(states_, joining.state.choice);
      if (states_[joining.place].drafts < 0) states_[joining.place] = joining.state;
    }
    insert(states_[joining.place], box);
  }

  /// One box behind another, from the narrowest pair on: always the least long that both have within the width at hand.
  void behind(Corners a, Corners b, Joining &joining) {
    if (a.empty() || b.empty()) return;
    std::size_t i = 0;
    std::size_t j = 0;
    while (true) {
      const Ticks across = std::max(a[i].across, b[j].across);
      while (i + 1 < a.size() && a[i + 1].across <= across)
        ++i;
      while (j + 1 < b.size() && b[j + 1].across <= across)
        ++j;
      offer(joining, {across, a[i].along + b[j].along, a[i].box, b[j].box, Tree::Join::behind, false});
      const bool more_a = i + 1 < a.size();
      const bool more_b = j + 1 < b.size();
      if (!more_a && !more_b) return;
      if (!more_b || (more_a && a[i + 1].across <= b[j + 1].across))
        ++i;
      else
        ++j;
    }
  }

  /// One box beside another: the longer of the two is made less long as far as it goes.
  void beside(Corners a, Corners b, Joining &joining) {
    for (std::size_t i = 0, j = 0; i < a.size() && j < b.size();) {
      const Ticks across = a[i].across + b[j].across;
      if (across > strip_.width) return;
      const Ticks along_a = a[i].along;
      const Ticks along_b = b[j].along;
      offer(joining, {across, std::max(along_a, along_b), a[i].box, b[j].box, Tree::Join::beside, false});
      if (along_a >= along_b) ++i;
      if (along_b >= along_a) ++j;
    }
  }

  bool may_be(const State &state, const Box &box) const {
    if (box.across > strip_.width || box.along > target_) return false;
    for (std::size_t i = 0; i < measures_.size(); ++i)
      if (measures_[i].empty(box.across, box.along, state.worth[i]) > measures_[i].allowed) return false;
    return true;
  }

  /// A box that another is within is not in the list.
  void insert(State &state, const Box &box) {
    int *link = &state.drafts;
    while (*link >= 0 && drafts_[*link].box.across <= box.across) {
      const Draft &draft = drafts_[*link];
      if (draft.box.along <= box.along) return;
      if (draft.box.across == box.across) break;
      link = &drafts_[*link].next;
    }
    int next = *link;
    while (next >= 0 && drafts_[next].box.along >= box.along)
      next = drafts_[next].next;
    *link = static_cast<int>(drafts_.size());
    drafts_.push_back({box, next});
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
  std::vector<Draft> drafts_;
  std::vector<Box> boxes_;
  std::vector<Corner> corners_;
  std::int64_t asked_ = 0;
  Index index_;
  std::vector<State> states_;        ///< by how many rectangles they have
  std::vector<Brief> briefs_;        ///< of each
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
