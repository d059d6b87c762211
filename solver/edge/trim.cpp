// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/edge/trim.hpp"

#include "solver/edge/crossing.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>
#include <tuple>
#include <utility>

namespace gatherwright::edge {

namespace {

/// A crossing as met from one of its two stretches.
struct Event {
  std::uint32_t stretch = 0;
  double u = 0;
  std::uint32_t onto = 0;
  double v = 0;
  double turn = 0; ///< of the jump, towards the shift above 0
};

/// A place on the strand: so many stretches on from where a walk began.
struct Place {
  std::size_t steps = 0;
  double u = 0;
};

/// A part that a walk leaves out.
struct Skipped {
  Place from, to;
};

struct Walked {
  std::vector<Stretch> kept;
  std::vector<Skipped> skipped;
};

/// The line asked for bounds what lies within the shift of the curve. Where two stretches of the strand cross on that
/// bound, each goes on inside it; so whoever walks along the bound changes over at every crossing met, turning towards
/// the shift.
class Walker {
public:
  Walker(const Strand &strand, const std::vector<Crossing> &crossings, const Thicket &curve)
      : strand_(strand), curve_(curve), stretches_(strand.stretches()), enclosed_(strand.enclosed()),
        touch_(strand.touch()) {
    const double side = std::copysign(1.0, strand.shift());
    events_.reserve(2 * crossings.size());
    for (const Crossing &crossing : crossings) {
      events_.push_back({crossing.first, crossing.u, crossing.second, crossing.v, side * crossing.turn});
      events_.push_back({crossing.second, crossing.v, crossing.first, crossing.u, -side * crossing.turn});
    }
    std::sort(events_.begin(), events_.end(), [](const Event &a, const Event &b) {
      return std::tie(a.stretch, a.u, a.onto, a.v) < std::tie(b.stretch, b.u, b.onto, b.v);
    });
  }

  Outcome<std::vector<Stretch>, Unresolved> run() {
    WalkOutcome walked = strand_.closed() ? walk_ring() : walk_open();
    if (!walked) return walked.fault();
    if (const std::optional<Unresolved> island = find_island(walked->skipped)) return *island;
    return finished(std::move(walked->kept));
  }

private:
  using WalkOutcome = Outcome<Walked, Unresolved>;

  std::size_t size() const { return stretches_.size(); }
  const Stretch &stretch_at(std::size_t steps) const { return stretches_[(origin_ + steps) % size()]; }

  Unresolved failure(Unresolved::Kind kind, const Stretch &stretch) const {
    return {kind, strand_.foot(stretch, stretch.first)};
  }

  /// Where an event's other side lies, counted from where the walk began.
  Place place_of(std::uint32_t stretch, double u) const {
    const std::size_t steps = (stretch + size() - origin_) % size();
    return steps == 0 && u < begin_ ? Place{size(), u} : Place{steps, u};
  }

  bool later(const Place &a, const Place &b) const {
    return a.steps > b.steps || (a.steps == b.steps && a.u > b.u + touch_);
  }

  std::vector<Event>::const_iterator first_event(std::uint32_t stretch, double u) const {
    return std::lower_bound(
        events_.begin(), events_.end(), std::pair(stretch, u),
        [](const Event &event, const auto &place) { return std::pair(event.stretch, event.u) < place; });
  }

  /// The first event on this stretch, from `from` on and not beyond `end`, that leads on to a later place, not beyond
  /// `stop`. Of several at one place one that turns towards the shift is taken first.
  const Event *next_event(const Place &from, double end, const Place &stop) const {
    const auto index = static_cast<std::uint32_t>((origin_ + from.steps) % size());
    const Event *best = nullptr;
    for (auto event = first_event(index, from.u - touch_);
         event != events_.end() && event->stretch == index && event->u <= end + touch_; ++event) {
      if (best && event->u > best->u + touch_) break;
      const Place onto = place_of(event->onto, event->v);
      if (!later(onto, {from.steps, std::max(from.u, event->u)}) || later(onto, stop)) continue;
      if (!best || (best->turn <= parallel && event->turn > parallel)) best = &*event;
    }
    return best;
  }

  /// Whether a part cut off comes through between two places on a stretch. Then the bound does not follow the strand's
  /// own order: the tip of an open corner has come out on the far side of another part.
  bool comes_through(const Place &from, double end) const {
    const auto index = static_cast<std::uint32_t>((origin_ + from.steps) % size());
    for (auto event = first_event(index, from.u + touch_);
         event != events_.end() && event->stretch == index && event->u < end - touch_; ++event) {
      const Stretch &other = stretches_[event->onto];
      const bool amid = event->v > other.first + touch_ && event->v < other.last - touch_;
      if (amid && std::abs(event->turn) > parallel && !later(place_of(event->onto, event->v), from)) return true;
    }
    return false;
  }

  /// Walks from `from` until `stop`.
  WalkOutcome walk(std::size_t origin, double begin, const Place &stop) {
    origin_ = origin;
    begin_ = begin;
    Walked walked;
    Place here{0, begin};
    while (true) {
      const Stretch &stretch = stretch_at(here.steps);
      if (++work_ > most_work_) return failure(Unresolved::Kind::too_tangled, stretch);
      if (stretch.folded) return failure(Unresolved::Kind::too_tight, stretch);
      const bool last = here.steps == stop.steps;
      const double end = last ? stop.u : stretch.last;
      const Event *event = next_event(here, end, stop);
      if (comes_through(here, event ? event->u : end)) return failure(Unresolved::Kind::runs_across, stretch);
      keep(walked, stretch, here.u, event ? std::min(event->u, stretch.last) : end);
      if (event) {
        if (event->turn < parallel) return failure(Unresolved::Kind::runs_across, stretch);
        const Place onto = place_of(event->onto, event->v);
        walked.skipped.push_back({{here.steps, event->u}, onto});
        here = onto;
        continue;
      }
      if (last) return walked;
      const Stretch &next = stretch_at(here.steps + 1);
      if (next.apart)
        return failure(next_doubles_back(stretch, next) ? Unresolved::Kind::doubles_back : Unresolved::Kind::too_tight,
                       next);
      here = {here.steps + 1, next.first};
    }
  }

  bool next_doubles_back(const Stretch &stretch, const Stretch &next) const {
    const Point in = strand_.moved(stretch).shape.tangent(stretch.to),
                out = strand_.moved(next).shape.tangent(next.from);
    return std::abs(turn_between(in, out)) > std::numbers::pi - 1e-6;
  }

  void keep(Walked &walked, const Stretch &stretch, double from, double to) const {
    if (!(to > from)) return;
    walked.kept.push_back(stretch);
    walked.kept.back().first = from;
    walked.kept.back().last = to;
  }

  WalkOutcome walk_open() { return walk(0, stretches_.front().first, {size() - 1, stretches_.back().last}); }

  /// A closed strand is begun at places between crossings, the longest way between two first, until a walk comes round
  /// once the same way as the curve does.
  WalkOutcome walk_ring() {
    struct Candidate {
      std::uint32_t stretch;
      double from, to;
    };
    std::vector<Candidate> candidates;
    auto event = events_.begin();
    for (std::uint32_t i = 0; i < size(); ++i) {
      if (stretches_[i].folded) continue;
      double from = stretches_[i].first;
      for (; event != events_.end() && event->stretch < i; ++event) {
      }
      for (; event != events_.end() && event->stretch == i; ++event) {
        candidates.push_back({i, from, event->u});
        from = event->u;
      }
      candidates.push_back({i, from, stretches_[i].last});
    }
    std::stable_sort(candidates.begin(), candidates.end(),
                     [](const Candidate &a, const Candidate &b) { return a.to - a.from > b.to - b.from; });
    Unresolved unresolved{Unresolved::Kind::nothing_left, 0};
    constexpr std::size_t most_tries = 64;
    for (std::size_t i = 0; i < std::min(most_tries, candidates.size()); ++i) {
      const double begin = 0.5 * (candidates[i].from + candidates[i].to);
      const Stretch &stretch = stretches_[candidates[i].stretch];
      const Point place = station(strand_.moved(stretch), stretch, begin).at;
      if (comes_within(curve_, place, std::abs(strand_.shift()))) continue; // within what is cut off
      WalkOutcome walked = walk(candidates[i].stretch, begin, {size(), begin});
      if (walked) {
        if (goes_round(walked->kept)) return walked;
      } else if (unresolved.kind == Unresolved::Kind::nothing_left) {
        unresolved = walked.fault();
      }
    }
    return unresolved;
  }

  /// Whether a ring turns by one full turn, the way its curve does.
  bool goes_round(const std::vector<Stretch> &kept) const {
    if (kept.empty()) return false;
    double turned = 0;
    Point before{};
    for (std::size_t i = 0; i <= kept.size(); ++i) {
      const Stretch &stretch = kept[i % kept.size()];
      const Moved moved = strand_.moved(stretch);
      const Station from = station(moved, stretch, stretch.first);
      if (i > 0) turned += turn_between(before, from.tangent);
      if (i == kept.size()) break;
      const Station to = station(moved, stretch, stretch.last);
      turned += moved.shape.turn(from.parameter, to.parameter);
      before = to.tangent;
    }
    return std::abs(turned - std::copysign(2 * std::numbers::pi, enclosed_)) < 1e-3;
  }

  /// A part left out may hold a piece of the bound that stands by itself, as where a neck is too narrow for the line
  /// and what lies behind it is not: a walk begun at a crossing there that turns away comes back to it.
  std::optional<Unresolved> find_island(const std::vector<Skipped> &skipped) {
    const std::size_t origin = origin_;
    const double begin = begin_;
    most_work_ = work_ + 20 * (size() + events_.size()) + 10'000;
    for (const Skipped &part : skipped) {
      for (std::size_t steps = part.from.steps; steps <= part.to.steps; ++steps) {
        const auto index = static_cast<std::uint32_t>((origin + steps) % size());
        for (auto event = first_event(index, 0); event != events_.end() && event->stretch == index; ++event) {
          std::tie(origin_, begin_) = std::tie(origin, begin);
          const Place here = place_of(index, event->u), onto = place_of(event->onto, event->v);
          if (event->turn > -parallel || !later(here, part.from) || !later(onto, here) || !later(part.to, onto))
            continue;
          const WalkOutcome outcome = walk(index, event->u + 4 * touch_, {onto.steps - here.steps, event->v});
          if (work_ > most_work_) return Unresolved{Unresolved::Kind::too_tangled, 0};
          if (outcome) return failure(Unresolved::Kind::falls_apart, stretches_[index]);
        }
      }
    }
    return std::nullopt;
  }

  Outcome<std::vector<Stretch>, Unresolved> finished(std::vector<Stretch> kept) const {
    if (strand_.closed() && !kept.empty()) {
      // The walk began anywhere; the line begins where the curve does, or where that was cut off.
      const auto begins_before = [](const Stretch &a, const Stretch &b) {
        return std::tie(a.span, a.from, a.first) < std::tie(b.span, b.from, b.first);
      };
      std::rotate(kept.begin(), std::min_element(kept.begin(), kept.end(), begins_before), kept.end());
    }
    double length = 0;
    for (Stretch &part : kept) {
      part.start = length;
      length += part.last - part.first;
    }
    if (!(length > touch_)) return Unresolved{Unresolved::Kind::nothing_left, 0};
    return kept;
  }

  static constexpr double parallel = 1e-9; ///< sine of an angle that rounding may turn the other way

  const Strand &strand_;
  const Thicket &curve_;
  const std::vector<Stretch> &stretches_;
  double enclosed_;
  double touch_;
  std::vector<Event> events_;
  std::size_t origin_ = 0;
  double begin_ = 0;
  std::size_t work_ = 0;
  std::size_t most_work_ = std::numeric_limits<std::size_t>::max(); ///< a walk ends by itself: every step leads on
};

/// The line left, unless it runs over its curve or an end of it lies where another part of the curve leaves no room.
Outcome<std::vector<Stretch>, Unresolved> clear_of_edge(const Strand &strand, std::vector<Stretch> kept,
                                                        const Thicket &edge) {
  // A shift that is hardly more than rounding leaves nothing to tell the line from the curve by.
  const double shift = std::abs(strand.shift());
  if (shift <= 100 * strand.touch()) return kept;
  const Strand line = strand.keeping(kept);
  const Crossings across = mutual_crossings(Thicket(line), edge, true);
  if (across.given_up) return Unresolved{Unresolved::Kind::too_tangled, 0};
  if (!across.found.empty()) {
    const Crossing &meeting = across.found.front();
    return Unresolved{Unresolved::Kind::runs_across,
                      edge.strand().foot(edge.strand().stretches()[meeting.second], meeting.v)};
  }
  if (strand.closed()) return kept;
  const auto crowded = [&](const Stretch &stretch, double u) {
    return comes_within(edge, station(strand.moved(stretch), stretch, u).at, shift);
  };
  if (crowded(kept.front(), kept.front().first)) return Unresolved{Unresolved::Kind::runs_across, 0};
  if (crowded(kept.back(), kept.back().last))
    return Unresolved{Unresolved::Kind::runs_across, strand.foot(kept.back(), kept.back().last)};
  return kept;
}

} // namespace

Outcome<std::vector<Stretch>, Unresolved> trim(Strand &&strand, const std::function<Strand()> &unmoved) {
  // A line no longer than rounding, as beside an arc whose radius is the shift, is none.
  if (!strand.broken() && !(strand.length() > strand.touch())) return Unresolved{Unresolved::Kind::nothing_left, 0};
  if (strand.keeps_on() && !strand.broken()) return std::move(strand).release();
  const Strand curve = unmoved();
  const Thicket edge(curve);
  const Crossings own = self_crossings(edge, true);
  if (own.given_up) return Unresolved{Unresolved::Kind::too_tangled, 0};
  if (!own.found.empty()) {
    const Crossing &meeting = own.found.front();
    return Unresolved{Unresolved::Kind::meets_itself, curve.foot(curve.stretches()[meeting.first], meeting.u)};
  }
  const Crossings crossings = self_crossings(Thicket(strand), false);
  if (crossings.given_up) return Unresolved{Unresolved::Kind::too_tangled, 0};
  std::vector<Stretch> kept = strand.stretches();
  if (strand.broken() || !crossings.found.empty()) {
    auto walked = Walker(strand, crossings.found, edge).run();
    if (!walked) return walked.fault();
    kept = *std::move(walked);
  }
  return clear_of_edge(strand, std::move(kept), edge);
}

} // namespace gatherwright::edge
