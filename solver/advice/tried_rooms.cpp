// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/tried_rooms.hpp"

#include "solver/advice/held_job.hpp"
#include "solver/job/worth.hpp"

#include <algorithm>
#include <utility>

namespace gatherwright::advice {

namespace {

/// An end itself may be where something comes to nothing: tried is what lies this share of the greater inside.
constexpr double just_inside = 1e-9;

class RoomTrials {
public:
  RoomTrials(const Job &job, const Plan &plan, const DrawnEdges &edges, optimum::Work &work)
      : written_(job), held_(job, plan, edges, work) {}

  bool holds(int length, Dependence on_it, double planned, const Interval &room) {
    const double low = room.low.value_or(0);
    const double high = room.high.value_or(std::max(2 * low, planned));
    const double inside = std::min(just_inside * high, (high - low) / 2);
    const bool is_low_nothing = !(low > 0);
    held_.take(length, std::move(on_it));
    return (is_low_nothing || works(length, low + inside)) && (!room.high || works(length, high - inside));
  }

private:
  bool works(int length, double value) {
    const std::optional<Plan> again = held_.with(value);
    return again && again->verdict == Verdict::within_limits && may_be_written(length, value);
  }

  /// What is written of lengths to be found goes by the length as well, and is not there where they are held.
  bool may_be_written(int length, double value) {
    NamedLength &changed = written_.lengths[length];
    if (changed.free()) return true;
    const auto before = std::exchange(changed.is, Formula::of({value}, ""));
    const bool sound = faults_of_values(written_).empty();
    changed.is = before;
    return sound;
  }

  Job written_;
  HeldJob held_; ///< where what a change cannot alter is as it was planned
};

} // namespace

bool try_rooms(const Job &job, Plan &plan, const DrawnEdges &edges, const Dependents &dependents, optimum::Work &work) {
  const auto has_room = [](const LengthPlan &length) { return length.room.has_value(); };
  if (plan.verdict == Verdict::within_limits || std::none_of(plan.lengths.begin(), plan.lengths.end(), has_room))
    return true;
  RoomTrials trials(job, plan, edges, work);
  for (int i = 0; i < static_cast<int>(plan.lengths.size()); ++i) {
    LengthPlan &length = plan.lengths[i];
    if (!length.room) continue;
    if (!work.spent()) {
      Dependence on_it = dependents.of(i);
      work.add(steps_through(job, on_it));
      if (trials.holds(i, std::move(on_it), *length.is, *length.room)) continue;
    }
    length.room.reset();
  }
  return !work.spent();
}

} // namespace gatherwright::advice
