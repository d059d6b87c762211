// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/layout/exact.hpp"

#include "solver/layout/choices.hpp"
#include "solver/layout/measure.hpp"
#include "solver/layout/staircases.hpp"

#include <algorithm>
#include <cstddef>
#include <span>
#include <utility>
#include <vector>

namespace gatherwright::layout {

namespace {

constexpr std::size_t most_boxes = 4'000'000;

using Join = Tree::Join;
using Joining = Staircases::Joining;

class Search {
public:
  Search(const Strip &strip, const Choices &choices, Ticks target, const Bounds &bounds, Allowance &allowance)
      : strip_(strip), choices_(choices), target_(target), allowance_(allowance), all_(choices.all()),
        rectangles_(static_cast<std::size_t>(strip.rectangles())),
        joined_of_(std::max<std::size_t>(1, (rectangles_ - 1) / 2)), filled_(choices, rectangles_ / 2 + 1),
        around_(choices, rectangles_ / 2 + 1) {
    add_measure(bounds.across(), Run::across);
    add_measure(bounds.along(), Run::along);
    add_measure(sizes_as_prices(strip, Run::across), Run::across);
    add_measure(sizes_as_prices(strip, Run::along), Run::along);
  }

  Exactly run() {
    for (const Measure &measure : measures_)
      if (measure.allowed < 0) return {Exactly::Answer::none, {}};
    singles();
    if (rectangles_ == 1) return single();
    for (std::size_t size = 2; 2 * size <= rectangles_; ++size)
      if (!fill(size)) return {};
    leave_all();
    for (std::size_t size = 1; size < rectangles_ - joined_of_; ++size)
      if (!leave(size)) return {};
    for (std::size_t size = joined_of_ + 1; size <= 2 * joined_of_; ++size)
      if (!complete(size)) return found_.empty() ? Exactly{} : Exactly{Exactly::Answer::found, std::move(found_)};
    return {Exactly::Answer::none, {}};
  }

private:
  void add_measure(const Prices &prices, Run run) {
    if (prices.straight.empty()) return;
    if (auto one = measure(strip_, prices, run, target_)) measures_.push_back(std::move(*one));
  }

  void singles() {
    for (int kind = 0; kind < static_cast<int>(strip_.kinds.size()); ++kind) {
      const Kind &of = strip_.kinds[kind];
      Joining single{{choices_.one(kind), {}, kind, -1, {}}, -1};
      for (std::size_t i = 0; i < measures_.size(); ++i)
        single.state.worth[i] = measures_[i].of_kind[kind];
      for (const bool turned : {false, true}) {
        const Box box{turned ? of.along : of.across, turned ? of.across : of.along, kind, 0, Join::piece, turned};
        if ((!turned || of.may_turn) && may_be(single.state.worth, box)) filled_.insert(single, box);
      }
    }
    filled_.finish(1);
  }

  Exactly single() const {
    Exactly exactly{filled_.boxes() == 0 ? Exactly::Answer::none : Exactly::Answer::found, {}};
    if (filled_.boxes() > 0) exactly.tree.root = build(0, exactly.tree);
    return exactly;
  }

  /// Whether all parts of all choices of a size are fewer than pairs that there are: then those are gone through.
  bool all_are_fewer(std::size_t size, double pairs) const {
    return choices_.numbered() > 0 && choices_.parts_of_size(size) < 2 * pairs;
  }

  /// All choices of so many rectangles that fill a box, from pairs of smaller ones.
  bool fill(std::size_t size) {
    double pairs = 0;
    for (std::size_t part = 1; 2 * part <= size; ++part)
      pairs += filled_.states_of(part) * filled_.states_of(size - part);
    const bool half = size > joined_of_;
    const bool done = all_are_fewer(size, pairs)
                          ? choices_.for_all(size, [&](auto parts) { return fill_from(parts, half); })
                          : each_pair(size, [&](int a, int b) { return join(a, b, half); });
    filled_.finish(size);
    return done && filled_.boxes() <= most_boxes;
  }

  bool fill_from(std::span<const std::uint32_t> parts, bool half) {
    if (!allowance_.spend(static_cast<std::int64_t>(parts.size() / 2))) return false;
    for (std::size_t i = 1, j = parts.size() - 2; i <= j; ++i, --j)
      if (filled_.has(parts[i]) && filled_.has(parts[j]) &&
          !join(filled_.place_of(parts[i]), filled_.place_of(parts[j]), half))
        return false;
    return true;
  }

  /// Pairs of choices that fill boxes, and are so many rectangles together.
  template <class Visit> bool each_pair(std::size_t size, Visit visit) {
    for (std::size_t part = 1; 2 * part <= size; ++part) {
      if (size - part > joined_of_) continue;
      for (std::size_t i = filled_.begin_of(part); i < filled_.end_of(part); ++i) {
        const std::size_t from = 2 * part == size ? i : filled_.begin_of(size - part);
        const std::size_t to = filled_.end_of(size - part);
        if (!allowance_.spend(static_cast<std::int64_t>(to - from))) return false;
        for (std::size_t j = from; j < to; ++j)
          if (choices_.enough_for(filled_.state(i).choice, filled_.state(j).choice) &&
              !visit(static_cast<int>(i), static_cast<int>(j)))
            return false;
      }
    }
    return true;
  }

  /// False once the allowance is spent.
  ///
  /// Three boxes one behind another can be joined two ways, and more of them more ways: it is enough that the one with
  /// the last kind is joined to all others, and is not itself joined like that. (Where it has as small a box that is,
  /// the same holds of the parts of that one.) The same side by side.
  bool join(int first, int second, bool half) {
    const Staircases::State &a = filled_.state(first);
    const Staircases::State &b = filled_.state(second);
    const Worths worth = sum(a.worth, b.worth);
    const auto may_join = [&](Join join) {
      const Box least = least_of(first, second, join);
      return may_be(worth, least) && (!half || may_be_half(worth, least));
    };
    const bool behind = may_join(Join::behind);
    const bool beside = may_join(Join::beside);
    if (!behind && !beside) return allowance_.spend(1);
    Joining joining{{a.choice + b.choice, worth, std::max(a.top, b.top), -1, {}}, -1};
    const bool a_has_last = a.top >= b.top;
    const bool b_has_last = b.top >= a.top && first != second;
    std::int64_t asked = 10;
    const auto offer = [&](const Box &box) {
      ++asked;
      if (may_be(worth, box) && (!half || may_be_half(worth, box))) filled_.insert(joining, box);
    };
    for (const bool swap : {false, true}) {
      if (!(swap ? b_has_last : a_has_last)) continue;
      const int last = swap ? second : first;
      const Corners others = filled_.corners(swap ? first : second, Staircases::all);
      if (behind) join_behind(filled_.corners(last, Staircases::none_behind), others, offer);
      if (beside) join_beside(filled_.corners(last, Staircases::none_beside), others, strip_.width, offer);
    }
    return allowance_.spend(asked);
  }

  Worths sum(const Worths &a, const Worths &b) const {
    Worths worth{};
    for (std::size_t i = 0; i < measures_.size(); ++i)
      worth[i] = a[i] + b[i];
    return worth;
  }

  /// The least box that there could be of two states'.
  Box least_of(int first, int second, Join join) const {
    const Staircases::Brief &a = filled_.brief(first);
    const Staircases::Brief &b = filled_.brief(second);
    const bool behind = join == Join::behind;
    return {behind ? std::max(a.across, b.across) : a.across + b.across,
            behind ? a.along + b.along : std::max(a.along, b.along),
            first,
            second,
            join,
            false};
  }

  /// Half of the rectangles are of use only where the other half lie beside them all along, or behind them across.
  bool may_be_half(const Worths &worth, const Box &box) const {
    return has_room(worth, {box.across, 0, 0, 0, Join::beside, false}) ||
           has_room(worth, {0, box.along, 0, 0, Join::behind, false});
  }

  bool may_be(const Worths &worth, const Box &box) const {
    if (box.across > strip_.width || box.along > target_) return false;
    for (std::size_t i = 0; i < measures_.size(); ++i)
      if (measures_[i].empty(box.across, box.along, worth[i]) > measures_[i].allowed) return false;
    return true;
  }

  /// Nothing is laid yet: all is free. Boxes that are left free are noted by what is not free, across and along.
  void leave_all() {
    Joining nothing{{{}, {}, 0, -1, {}}, -1};
    around_.insert(nothing, {});
    around_.finish(0);
  }

  /// What all choices of so many rectangles leave free, one box of them being laid last.
  bool leave(std::size_t size) {
    double pairs = 0;
    for (std::size_t part = 1; part <= size; ++part)
      pairs += filled_.states_of(part) * around_.states_of(size - part);
    const bool done = all_are_fewer(size, pairs) ? choices_.for_all(size, [&](auto parts) { return leave_from(parts); })
                                                 : leave_from_pairs(size);
    around_.finish(size);
    return done && around_.boxes() <= most_boxes;
  }

  bool leave_from(std::span<const std::uint32_t> parts) {
    if (!allowance_.spend(static_cast<std::int64_t>(parts.size()))) return false;
    for (std::size_t i = 1, j = parts.size() - 2; i < parts.size(); ++i, --j)
      if (filled_.has(parts[i]) && around_.has(parts[j]) &&
          !lay(around_.place_of(parts[j]), filled_.place_of(parts[i])))
        return false;
    return true;
  }

  bool leave_from_pairs(std::size_t size) {
    for (std::size_t part = 1; part <= size; ++part)
      for (std::size_t i = around_.begin_of(size - part); i < around_.end_of(size - part); ++i) {
        if (!allowance_.spend(static_cast<std::int64_t>(filled_.states_of(part)))) return false;
        for (std::size_t j = filled_.begin_of(part); j < filled_.end_of(part); ++j)
          if (choices_.enough_for(around_.state(i).choice, filled_.state(j).choice) &&
              !lay(static_cast<int>(i), static_cast<int>(j)))
            return false;
      }
    return true;
  }

  /// Lays a box of a state in what another leaves free. Those laid one after another the same way are one box.
  bool lay(int outer, int inner) {
    const Staircases::State &room = around_.state(outer);
    const Staircases::State &state = filled_.state(inner);
    Joining joining{{room.choice + state.choice, sum(room.worth, state.worth), 0, -1, {}}, -1};
    std::int64_t asked = 3;
    const auto offer = [&](const Box &taken) {
      ++asked;
      if (has_room(joining.state.worth, taken)) around_.insert(joining, taken);
    };
    const Staircases::Brief &a = around_.brief(outer);
    const Staircases::Brief &b = filled_.brief(inner);
    const Corners boxes = filled_.corners(inner, Staircases::all);
    if (has_room(joining.state.worth, {a.across, a.along + b.along, 0, 0, Join::behind, false}))
      lay_behind(around_.corners(outer, Staircases::none_behind), boxes, offer);
    if (has_room(joining.state.worth, {a.across + b.across, a.along, 0, 0, Join::beside, false}))
      lay_beside(around_.corners(outer, Staircases::none_beside), boxes, offer);
    return allowance_.spend(asked);
  }

  /// The least long box that is no wider than what is free.
  template <class Offer> void lay_behind(Corners taken, Corners boxes, Offer offer) const {
    std::size_t i = boxes.size();
    for (const Corner &corner : taken) {
      while (i > 0 && boxes[i - 1].across > strip_.width - corner.across)
        --i;
      if (i == 0) return;
      const Corner &box = boxes[i - 1];
      offer(Box{corner.across, corner.along + box.along, corner.box, box.box, Join::behind, false});
    }
  }

  /// The narrowest box that is no longer than what is free.
  template <class Offer> void lay_beside(Corners taken, Corners boxes, Offer offer) const {
    std::size_t i = 0;
    for (std::size_t at = taken.size(); at-- > 0;) {
      const Corner &corner = taken[at];
      while (i < boxes.size() && boxes[i].along > target_ - corner.along)
        ++i;
      if (i == boxes.size()) return;
      offer(Box{corner.across + boxes[i].across, corner.along, corner.box, boxes[i].box, Join::beside, false});
    }
  }

  /// Whether there may be room for all others in what is left free.
  bool has_room(const Worths &worth, const Box &taken) const {
    const Ticks across = strip_.width - taken.across;
    const Ticks along = target_ - taken.along;
    if (across <= 0 || along <= 0) return false;
    for (std::size_t i = 0; i < measures_.size(); ++i)
      if (measures_[i].too_small(across, along, worth[i])) return false;
    return true;
  }

  /// Looks for so many rectangles, joined of two boxes, that find room in what all others leave: true where there are
  /// none.
  bool complete(std::size_t size) {
    double pairs = 0;
    for (std::size_t part = 1; 2 * part <= size; ++part)
      if (size - part <= joined_of_) pairs += filled_.states_of(part) * filled_.states_of(size - part);
    if (all_are_fewer(size, pairs)) return complete_from_rooms(rectangles_ - size);
    return each_pair(size, [&](int a, int b) {
      const int room = around_.place_of(all_ - (filled_.state(a).choice + filled_.state(b).choice));
      return room < 0 || join_within(a, b, room);
    });
  }

  bool complete_from_rooms(std::size_t others) {
    std::vector<std::uint32_t> parts;
    for (std::size_t room = around_.begin_of(others); room < around_.end_of(others); ++room) {
      choices_.parts_of(all_.number - around_.state(room).choice.number, parts);
      if (!allowance_.spend(static_cast<std::int64_t>(parts.size() / 2))) return false;
      for (std::size_t i = 1, j = parts.size() - 2; i <= j; ++i, --j)
        if (filled_.has(parts[i]) && filled_.has(parts[j]) &&
            !join_within(filled_.place_of(parts[i]), filled_.place_of(parts[j]), static_cast<int>(room)))
          return false;
    }
    return true;
  }

  /// False where a layout is found, or the allowance is spent. Of boxes that are joined one behind another in a layout,
  /// any can be the two at hand that come to half or more: it is enough if one is not itself joined like that.
  bool join_within(int first, int second, int room) {
    const Corners rooms = around_.corners(room, Staircases::all);
    const bool behind = room_for(rooms, least_of(first, second, Join::behind));
    const bool beside = room_for(rooms, least_of(first, second, Join::beside));
    if (!behind && !beside) return allowance_.spend(1);
    const int a_top = filled_.state(first).top;
    const int b_top = filled_.state(second).top;
    std::int64_t asked = 3;
    const auto offer = [&](const Box &box) {
      ++asked;
      if (const Corner *within = room_for(rooms, box); within && found_.empty()) found_.root = build(*within, box);
    };
    for (const bool swap : {false, true}) {
      if (!(swap ? b_top >= a_top && first != second : a_top >= b_top)) continue;
      const Corners with_last = filled_.corners(swap ? second : first, Staircases::all);
      const int other = swap ? first : second;
      if (behind) join_behind(filled_.corners(other, Staircases::none_behind), with_last, offer);
      if (beside) join_beside(filled_.corners(other, Staircases::none_beside), with_last, strip_.width, offer);
    }
    return allowance_.spend(asked) && found_.empty();
  }

  /// The free box that has room for a box; null: none.
  const Corner *room_for(Corners rooms, const Box &box) const {
    const Corner *widest = nullptr;
    for (const Corner &corner : rooms) {
      if (corner.across > strip_.width - box.across) break;
      widest = &corner;
    }
    return widest && widest->along <= target_ - box.along ? widest : nullptr;
  }

  /// A box, and around it what left the room that it is in, from the last laid on.
  int build(const Corner &room, const Box &box) {
    const int first = build(box.first, found_);
    int root = found_.join(box.join, first, build(box.second, found_));
    for (const Box *outer = &around_.box(room.box); outer->join != Join::piece; outer = &around_.box(outer->first))
      root = found_.join(outer->join, root, build(outer->second, found_));
    return root;
  }

  int build(int at, Tree &tree) const {
    const Box &box = filled_.box(at);
    if (box.join == Join::piece) return tree.piece(strip_, box.first, box.turned);
    const int first = build(box.first, tree);
    return tree.join(box.join, first, build(box.second, tree));
  }

  const Strip &strip_;
  const Choices &choices_;
  Ticks target_;
  Allowance &allowance_;
  Choice all_;
  std::size_t rectangles_;
  std::size_t joined_of_; ///< fewer than half, but 1 of 2
  std::vector<Measure> measures_;
  Staircases filled_; ///< the least boxes that choices fill
  Staircases around_; ///< of each choice, what it leaves free of a layout for all others
  Tree found_;
};

} // namespace

Exactly layout_within(const Strip &strip, Ticks target, const Bounds &bounds, Allowance &allowance) {
  if (strip.kinds.empty()) return {Exactly::Answer::found, {}};
  const auto choices = Choices::of(strip);
  if (!choices) return {};
  return Search(strip, *choices, target, bounds, allowance).run();
}

} // namespace gatherwright::layout
