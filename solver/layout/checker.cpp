// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/layout/checker.hpp"

#include "solver/layout/certified.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <set>
#include <tuple>
#include <utility>
#include <vector>

namespace gatherwright::layout {

namespace {

struct Box {
  double across = 0;
  double along = 0;
  double across_end = 0;
  double along_end = 0;
};

/// What lengths may be off by.
struct Tolerance {
  double across = 0;
  double along = 0;
};

Box box_of(const Problem &problem, const Placement &placement) {
  const Rectangle &rectangle = problem.rectangles[placement.rectangle];
  const double wide = placement.turned ? rectangle.along : rectangle.across;
  const double high = placement.turned ? rectangle.across : rectangle.along;
  return {placement.across, placement.along, placement.across + wide, placement.along + high};
}

std::optional<Flaw> missing(const Problem &problem, const Layout &layout) {
  std::set<std::pair<std::size_t, int>> there;
  for (std::size_t i = 0; i < layout.placements.size(); ++i) {
    const Placement &placement = layout.placements[i];
    if (placement.rectangle >= problem.rectangles.size()) return Flaw{Flaw::What::missing, placement.rectangle};
    const Rectangle &rectangle = problem.rectangles[placement.rectangle];
    if (placement.turned && !rectangle.may_turn) return Flaw{Flaw::What::turned, i};
    if (placement.copy < 1 || placement.copy > rectangle.count ||
        !there.emplace(placement.rectangle, placement.copy).second)
      return Flaw{Flaw::What::missing, placement.rectangle};
  }
  for (std::size_t i = 0; i < problem.rectangles.size(); ++i)
    for (int copy = 1; copy <= problem.rectangles[i].count; ++copy)
      if (there.count({i, copy}) == 0) return Flaw{Flaw::What::missing, i};
  return std::nullopt;
}

std::optional<Flaw> outside(const Problem &problem, const Layout &layout, const Tolerance &within) {
  for (std::size_t i = 0; i < layout.placements.size(); ++i) {
    const Box box = box_of(problem, layout.placements[i]);
    const bool inside = box.across >= 0 && box.along >= 0 && box.across_end <= problem.width + within.across &&
                        box.along_end <= layout.length + within.along;
    if (!inside) return Flaw{Flaw::What::outside, i};
  }
  return std::nullopt;
}

/// Goes down the strip and keeps what the line at hand meets, in order from side to side: neighbours there must not
/// overlap.
std::optional<Flaw> overlaps(const Problem &problem, const Layout &layout, const Tolerance &within) {
  struct Event {
    double along;
    bool begins;
    std::size_t placement;
  };
  std::vector<Event> events;
  std::vector<Box> boxes;
  for (std::size_t i = 0; i < layout.placements.size(); ++i) {
    boxes.push_back(box_of(problem, layout.placements[i]));
    const double end = boxes[i].along_end - within.along;
    if (!(end > boxes[i].along)) continue; // of a length that is lost in the rounding of all
    events.push_back({boxes[i].along, true, i});
    events.push_back({end, false, i});
  }
  std::sort(events.begin(), events.end(), [](const Event &a, const Event &b) {
    return std::tie(a.along, a.begins, a.placement) < std::tie(b.along, b.begins, b.placement);
  });
  std::set<std::pair<double, std::size_t>> met;
  for (const Event &event : events) {
    const std::pair<double, std::size_t> at{boxes[event.placement].across, event.placement};
    if (!event.begins) {
      met.erase(at);
      continue;
    }
    const auto place = met.insert(at).first;
    const bool before = place != met.begin() && boxes[std::prev(place)->second].across_end > at.first + within.across;
    const auto next = std::next(place);
    const bool behind = next != met.end() && boxes[event.placement].across_end > next->first + within.across;
    if (before || behind) return Flaw{Flaw::What::overlaps, event.placement};
  }
  return std::nullopt;
}

/// The parts into which cuts divide the strip. Each cut says the edges of its part to the bit.
class Parts {
public:
  explicit Parts(const Box &whole) { add(whole); }

  /// False where there is no part that the cut runs straight through.
  bool divide(const Cut &cut) {
    const bool across = cut.run == Run::across;
    auto &parts = across ? by_across_ : by_along_;
    auto at = parts.lower_bound({cut.from, cut.at});
    if (at == parts.begin()) return false;
    const Box part = std::prev(at)->second;
    Box first = part;
    Box second = part;
    if (across) {
      if (part.across != cut.from || part.across_end != cut.to || !(cut.at < part.along_end)) return false;
      first.along_end = second.along = cut.at;
    } else {
      if (part.along != cut.from || part.along_end != cut.to || !(cut.at < part.across_end)) return false;
      first.across_end = second.across = cut.at;
    }
    by_across_.erase({part.across, part.along});
    by_along_.erase({part.along, part.across});
    add(first);
    add(second);
    return true;
  }

  const Box *at(double across, double along) const {
    const auto found = by_across_.find({across, along});
    return found == by_across_.end() ? nullptr : &found->second;
  }

private:
  using Corner = std::pair<double, double>;
  void add(const Box &part) {
    by_across_[{part.across, part.along}] = part;
    by_along_[{part.along, part.across}] = part;
  }
  std::map<Corner, Box> by_across_; ///< by the corner, across first
  std::map<Corner, Box> by_along_;
};

std::optional<Flaw> cut_out(const Problem &problem, const Layout &layout, const Tolerance &within) {
  Parts parts({0, 0, problem.width, layout.length});
  for (std::size_t i = 0; i < layout.cuts.size(); ++i)
    if (!parts.divide(layout.cuts[i])) return Flaw{Flaw::What::cut, i};
  for (std::size_t i = 0; i < layout.placements.size(); ++i) {
    const Box box = box_of(problem, layout.placements[i]);
    const Box *part = parts.at(box.across, box.along);
    if (!part || std::abs(part->across_end - box.across_end) > within.across ||
        std::abs(part->along_end - box.along_end) > within.along)
      return Flaw{Flaw::What::not_cut_out, i};
  }
  return std::nullopt;
}

std::optional<Flaw> bounded(const Problem &problem, const Layout &layout, const Tolerance &within) {
  if (!(layout.bound >= 0 && layout.bound <= layout.length)) return Flaw{Flaw::What::bound, 0};
  if (layout.shortest != (layout.bound == layout.length)) return Flaw{Flaw::What::bound, 0};
  if (layout.certified > layout.bound + within.along) return Flaw{Flaw::What::bound, 0};
  const auto proved = certified(problem, layout.certificate);
  if (!proved || layout.certified > *proved + within.along) return Flaw{Flaw::What::certificate, 0};
  return std::nullopt;
}

} // namespace

std::optional<Flaw> check(const Problem &problem, const Layout &layout) {
  if (!(layout.length >= 0 && std::isfinite(layout.length))) return Flaw{Flaw::What::length, 0};
  const Tolerance within{problem.width * rounding, std::max(problem.width, layout.length) * rounding};
  if (const auto flaw = missing(problem, layout)) return flaw;
  if (const auto flaw = outside(problem, layout, within)) return flaw;
  if (const auto flaw = overlaps(problem, layout, within)) return flaw;
  if (const auto flaw = cut_out(problem, layout, within)) return flaw;
  return bounded(problem, layout, within);
}

} // namespace gatherwright::layout
