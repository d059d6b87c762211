// SPDX-License-Identifier: GPL-3.0-or-later
#include "advice/tried_rooms.hpp"

#include "advice/change.hpp"
#include "advice/dependence.hpp"
#include "job/worth.hpp"

#include <algorithm>
#include <utility>

namespace gatherwright::advice {

namespace {

/// An end itself may be where something comes to nothing: tried is what lies this share of the greater inside.
constexpr double just_inside = 1e-9;

/// Work of planning that may be done for this.
constexpr long most_work = 200'000;

class RoomTrials {
public:
  RoomTrials(const Job &job, const Plan &plan, const DrawnEdges &edges)
      : written_(job), edges_(edges), held_(with_lengths_held(job, plan)), joins_(std::exchange(held_.joins, {})),
        rules_(std::exchange(held_.rules, {})), depend_(dependences(job)) {}

  bool holds(int length, double planned, const Interval &room) {
    const double low = room.low.value_or(0);
    const double high = room.high.value_or(std::max(2 * low, planned));
    const double inside = std::min(just_inside * high, (high - low) / 2);
    const bool is_low_nothing = !(low > 0);
    return (is_low_nothing || works(length, low + inside)) && (!room.high || works(length, high - inside));
  }

private:
  /// The job with that length alone changed: what it cannot alter is as it was planned.
  bool works(int length, double value) {
    const Dependence &on_it = depend_[length];
    Job job = held_;
    job.lengths[length].is = fixed_formula({value}, "");
    DrawnEdges edges;
    for (const int j : on_it.joins) {
      job.joins.push_back(joins_[j]);
      if (!edges_.empty()) edges.push_back(edges_[j]);
    }
    for (const int r : on_it.rules)
      job.rules.push_back(rules_[r]);
    work_ += work_of_planning(job);
    if (work_ > most_work || !may_be_written(length, value)) return false;
    const std::optional<Plan> again = planned_again(job, edges);
    return again && again->verdict == Verdict::within_limits;
  }

  /// What is written of lengths to be found goes by the length as well, and is not there where they are held.
  bool may_be_written(int length, double value) {
    NamedLength &changed = written_.lengths[length];
    if (changed.free) return true;
    const Formula before = std::exchange(changed.is, fixed_formula({value}, ""));
    const bool sound = faults_of_values(written_).empty();
    changed.is = before;
    return sound;
  }

  Job written_;
  const DrawnEdges &edges_;
  Job held_; ///< every free length held as planned, no joins and no rules
  std::vector<Join> joins_;
  std::vector<Rule> rules_;
  std::vector<Dependence> depend_;
  long work_ = 0;
};

} // namespace

void try_rooms(const Job &job, Plan &plan, const DrawnEdges &edges) {
  const auto has_room = [](const LengthPlan &length) { return length.room.has_value(); };
  if (plan.verdict == Verdict::within_limits || std::none_of(plan.lengths.begin(), plan.lengths.end(), has_room))
    return;
  RoomTrials trials(job, plan, edges);
  for (std::size_t i = 0; i < plan.lengths.size(); ++i) {
    LengthPlan &length = plan.lengths[i];
    if (length.room && !trials.holds(static_cast<int>(i), length.is, *length.room)) length.room.reset();
  }
}

} // namespace gatherwright::advice
