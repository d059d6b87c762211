// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/layout/task.hpp"

#include "solver/layout/bands.hpp"
#include "solver/layout/exact.hpp"

#include <algorithm>
#include <limits>
#include <utility>

namespace gatherwright::layout {

namespace {

constexpr std::int64_t steps_to_set_up = 20'000'000;
/// Of many rectangles, what cannot be proved soon cannot be at all.
std::int64_t share_to_prove(int rectangles, std::int64_t steps) {
  return rectangles <= 20 ? steps : rectangles <= 32 ? steps / 4 : steps / 10;
}

/// Of few rectangles, a layout is found by a search sooner than on the way to a proof.
std::int64_t steps_before_proof(std::int64_t rectangles) {
  return rectangles <= 20 ? 2000 * rectangles * rectangles : 4000 * rectangles;
}

bool is_tight(const Strip &strip, Ticks bound) {
  return strip.area() > 0.99 * static_cast<double>(strip.width) * static_cast<double>(bound);
}

/// Many different rectangles that leave hardly anything empty are the hardest.
std::int64_t share_to_search(const Strip &strip, Ticks bound, std::int64_t steps) {
  const int rectangles = strip.rectangles();
  const bool different = 2 * static_cast<int>(strip.kinds.size()) > rectangles;
  return different && rectangles <= 64 && is_tight(strip, bound) ? 3 * steps : steps;
}

/// So many are laid band by band as well, and more than this in no other way.
constexpr int laid_in_bands = 24;
constexpr int searched_whole = 100;

Ticks all_behind(const Strip &strip) {
  Ticks sum = 0;
  for (const Kind &kind : strip.kinds)
    sum += kind.count * std::max(kind.along, kind.may_turn ? kind.across : 0);
  return sum;
}

} // namespace

Task::Task(const Strip &strip, const Budget &budget)
    : strip_(strip), setting_up_(steps_to_set_up), bounds_(strip, setting_up_), bound_(bounds_.least()),
      limit_(std::numeric_limits<Ticks>::max()), proving_(share_to_prove(strip.rectangles(), budget.proving)),
      searching_(share_to_search(strip, bound_, budget.searching)), exact_first_(strip, false, 1),
      in_turn_(strip, true, 2) {}

void Task::shorten() {
  const int rectangles = strip_.rectangles();
  Allowance in_bands((rectangles > searched_whole ? 4 : 1) * searching_.left());
  if (rectangles <= searched_whole) {
    keep(exact_first_.find(all_behind(strip_), searching_));
    work();
  }
  if (rectangles >= laid_in_bands && !done()) keep(lay_in_bands(strip_, bound_, in_bands));
}

void Task::fit(Ticks length) {
  limit_ = length;
  shortest_ = false;
  work();
}

void Task::work() {
  const std::int64_t little = steps_before_proof(strip_.rectangles());
  if (shortest_)
    search_down(little);
  else
    search(limit_, little);
  prove();
  if (shortest_)
    search_down(searching_.left());
  else
    search(limit_, searching_.left());
}

void Task::keep(std::optional<Tree> tree) {
  if (!tree || (best_ && best_->along() <= tree->along())) return;
  best_ = std::move(tree);
  limit_ = shortest_ ? best_->along() - 1 : -1;
}

void Task::raise(Ticks bound) {
  bound_ = std::max(bound_, bounds_.lengths().least_from(bound));
}

/// Where little will be left empty, what fits exactly always goes first; else that is tried as well.
void Task::search(Ticks length, std::int64_t steps) {
  if (length < bound_) return;
  const std::int64_t all = std::min(steps, searching_.left());
  const std::int64_t in_turn = is_tight(strip_, bound_) ? 0 : all / 2;
  search_with(in_turn_, length, in_turn);
  search_with(exact_first_, length, all - in_turn);
}

void Task::search_with(Acceptance &acceptance, Ticks length, std::int64_t steps) {
  if (done() || limit_ < length || steps <= 0) return;
  Allowance allowance(steps);
  keep(acceptance.find(length, allowance));
  searching_.spend(steps - allowance.left());
}

/// Tries what is a third of the gap shorter; where that is not found, less.
void Task::search_down(std::int64_t steps) {
  const std::int64_t end = searching_.left() - steps;
  Ticks part = 3;
  while (!done() && searching_.left() > std::max<std::int64_t>(end, 0)) {
    const Ticks gap = limit_ + 1 - bound_;
    const Ticks length = bounds_.lengths().most_within(limit_ + 1 - std::max<Ticks>(1, gap / part));
    const bool last = gap / part <= 1;
    const std::int64_t left = searching_.left() - std::max<std::int64_t>(end, 0);
    const Ticks before = limit_;
    search(length, last ? left : left / 4 + 1);
    if (limit_ == before) part *= 3;
  }
}

/// The larger kinds alone, and more and more of them: often they decide how long a layout must be, and what is smaller
/// finds a place in what they leave.
std::vector<Strip> Task::parts() const {
  std::vector<Kind> kinds = strip_.kinds;
  std::stable_sort(kinds.begin(), kinds.end(), [](const Kind &a, const Kind &b) { return a.area() > b.area(); });
  std::vector<Strip> parts;
  Strip part{strip_.width, {}};
  for (const Kind &kind : kinds) {
    part.kinds.push_back(kind);
    if (part.rectangles() > 2 && part.kinds.size() < kinds.size()) parts.push_back(part);
  }
  return parts;
}

void Task::prove() {
  for (const Strip &part : parts()) {
    if (done()) return;
    Allowance allowance(proving_.left() / 4);
    const std::int64_t before = allowance.left();
    const Ticks bound = bound_;
    const bool known = raise_by(part, Bounds(part, setting_up_), allowance);
    proving_.spend(before - allowance.left());
    if (shortest_ && bound_ > bound) search(bound_, 4000 * static_cast<std::int64_t>(strip_.rectangles()));
    if (!known) break;
  }
  if (!done()) raise_by(strip_, bounds_, proving_);
}

/// Looks for the length of the shortest layout of a part or of the whole strip, or whether there is one of a length:
/// whether that is known then. Mostly it is not much longer than that of a smaller part.
bool Task::raise_by(const Strip &part, const Bounds &bounds, Allowance &allowance) {
  const bool whole = &part == &strip_;
  raise(bounds.least());
  Ticks shortest = limit_ + 1;
  for (Ticks step = 1; bound_ < shortest;) {
    const Ticks target = shortest_ ? std::min(bound_ + step, shortest) - 1 : limit_;
    Exactly exactly = layout_within(part, target, bounds, allowance);
    if (exactly.answer == Exactly::Answer::not_known) return false;
    if (exactly.answer == Exactly::Answer::found) {
      shortest = exactly.tree.along();
      step = std::max<Ticks>(1, (shortest - bound_) / 2);
      if (whole) keep(std::move(exactly.tree));
      if (!shortest_) return true;
    } else {
      raise(target + 1);
      step *= 2;
    }
  }
  return true;
}

} // namespace gatherwright::layout
