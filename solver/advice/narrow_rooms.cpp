// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/narrow_rooms.hpp"

#include "solver/advice/held_job.hpp"
#include "solver/advice/piece_reach.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright::advice {

namespace {

/// Ends are looked for to this share of the greater.
constexpr double fine = 1e-9;

/// Where nothing planned is within limits yet, so many values of the room are tried for one that is.
constexpr int tries = 64;

/// Of a room without bound, this many times the greater of its beginning and what is planned stands for all beyond.
constexpr double far_off = 16;

bool has_band_found(const Segment &segment) {
  return takes_fullness(segment.kind) && !segment.band && segment.long_edge;
}

/// A flat stretch is to be found, and so are another's cloth and another's band: the plan chooses how long it is.
bool has_flat_to_choose(const Join &join) {
  const auto flat_to_find = [](const Segment &segment) {
    return !takes_fullness(segment.kind) && !segment.band && !segment.long_edge;
  };
  const auto cloth_to_find = [](const Segment &segment) { return takes_fullness(segment.kind) && !segment.long_edge; };
  const auto any = [&](const auto &is) { return std::any_of(join.segments.begin(), join.segments.end(), is); };
  return any(flat_to_find) && any(cloth_to_find) && any(has_band_found);
}

bool has_fade_to_choose(const Join &join) {
  const auto found = std::count_if(join.segments.begin(), join.segments.end(), has_band_found);
  return found > 1 && std::any_of(join.segments.begin(), join.segments.end(), [](const Segment &segment) {
           return has_band_found(segment) && std::holds_alternative<Fade>(segment.spread);
         });
}

bool is_in_question(const Join &join) {
  return has_flat_to_choose(join) || has_fade_to_choose(join);
}

class NarrowingOfRooms {
public:
  NarrowingOfRooms(const Job &job, const Plan &plan, const DrawnEdges &edges, optimum::Work &work)
      : held_(job, plan, edges, work), work_(work) {}

  /// What is left of a room, or nothing; that too once the work is spent.
  std::optional<Interval> narrowed(int length, Dependence on_it, double planned, const Interval &room) {
    if (work_.spent()) return std::nullopt;
    held_.take(length, std::move(on_it));
    const double low = room.low.value_or(0);
    const double high = room.high.value_or(far_off * std::max(low, planned));
    auto left = within(planned, low, high);
    if (left && !room.high && left->high == high) left->high.reset();
    return work_.spent() ? std::nullopt : left;
  }

private:
  bool works(double value) {
    const std::optional<Plan> plan = held_.with(value);
    return plan && plan->verdict == Verdict::within_limits;
  }

  std::optional<Interval> within(double planned, double low, double high) {
    double inside = std::clamp(planned, low, high);
    for (int n = 0; !works(inside); ++n) {
      if (n == tries) return std::nullopt;
      inside = low + (n + 0.5) * (high - low) / tries;
    }
    return Interval{end(inside, low, fine * high), end(inside, high, fine * high)};
  }

  /// The last value that works on the way from one that does to the room's end as reckoned. What the plan chooses may
  /// fail and hold again beyond, where the limits leave it less to choose: so the way is gone by halves of what is
  /// left.
  double end(double works_at, double reckoned, double close) {
    double fails_at = works_at;
    while (std::abs(reckoned - fails_at) > close) {
      fails_at = 0.5 * (fails_at + reckoned);
      if (!works(fails_at)) break;
      works_at = fails_at;
    }
    if (fails_at == works_at) return reckoned;
    while (std::abs(fails_at - works_at) > close) {
      const double middle = 0.5 * (works_at + fails_at);
      (works(middle) ? works_at : fails_at) = middle;
    }
    return works_at;
  }

  HeldJob held_;
  optimum::Work &work_;
};

} // namespace

bool narrow_rooms(const Job &job, Plan &plan, const DrawnEdges &edges, const Dependents &dependents,
                  optimum::Work &work) {
  const auto in_question = [&](int j) { return is_in_question(job.joins[j]); };
  std::vector<char> chosen; // pieces; once the work is spent, all that are not looked at
  for (int p = 0; p < static_cast<int>(job.pieces.size()); ++p) {
    work.add(steps_through(job, job.pieces[p]));
    chosen.push_back(work.spent() || has_part_chosen(job, PieceId(p)));
  }
  const auto piece_in_question = [&](int p) { return chosen[p] != 0; };
  if (std::none_of(job.joins.begin(), job.joins.end(), is_in_question) &&
      std::none_of(chosen.begin(), chosen.end(), [](char is) { return is != 0; }))
    return true;
  NarrowingOfRooms narrowing(job, plan, edges, work);
  for (std::size_t i = 0; i < plan.lengths.size(); ++i) {
    LengthPlan &length = plan.lengths[i];
    if (!length.room) continue;
    Dependence on_it = dependents.of(static_cast<int>(i));
    work.add(steps_through(job, on_it));
    if (std::none_of(on_it.joins.begin(), on_it.joins.end(), in_question) &&
        std::none_of(on_it.pieces.begin(), on_it.pieces.end(), piece_in_question))
      continue;
    length.room = narrowing.narrowed(static_cast<int>(i), std::move(on_it), *length.is, *length.room);
  }
  return !work.spent();
}

} // namespace gatherwright::advice
