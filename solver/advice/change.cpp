// SPDX-License-Identifier: GPL-3.0-or-later
#include "advice/change.hpp"

#include "plan/planner.hpp"

#include <utility>
#include <variant>

namespace gatherwright::advice {

Job with_length(const Job &job, const allot::Subject &subject, double planned, double to) {
  Job changed = job;
  const Formula formula = fixed_formula({to}, "");
  if (!subject.is_length()) {
    Join &join = changed.joins[subject.join];
    Edge &edge = subject.of_band ? join.band : join.long_edge;
    edge.length = formula;
    return changed;
  }
  NamedLength &length = changed.lengths[subject.length];
  if (!length.free)
    length.is = formula;
  else if (to < planned)
    length.from = formula;
  else
    length.to = formula;
  return changed;
}

Job with_weight(const Job &job, Weight weight) {
  Job changed = job;
  changed.fabric.weight = weight;
  for (Join &join : changed.joins)
    if (!join.own_weight) join.fabric.weight = weight;
  return changed;
}

Job with_stitch(const Job &job, int join, Length stitch) {
  Job changed = job;
  Gathering &gathering = changed.joins[join].gathering;
  gathering.stitch = stitch;
  gathering.threads.reset();
  return changed;
}

Job with_kind(const Job &job, int join, int segment, Kind kind) {
  Job changed = job;
  Segment &made = changed.joins[join].segments[segment];
  made.kind = kind;
  made.limits = {};
  made.share = 1;
  if (kind == Kind::gauge) made.spread = {};
  // A plain stretch given by its cloth keeps its place on the band, and takes what cloth it can.
  if (kind == Kind::ease && made.band.steps.empty()) std::swap(made.band, made.long_edge);
  return changed;
}

std::optional<Plan> planned_again(const Job &job, const DrawnEdges &edges) {
  PlanOutcome outcome = plan_numbers(job, edges);
  if (auto *found = std::get_if<Plan>(&outcome)) return std::move(*found);
  return std::nullopt;
}

bool mended(const Plan &plan, int join) {
  if (join < 0) return plan.verdict == Verdict::within_limits;
  return plan.verdict != Verdict::rules_conflict && plan.joins[join].verdict == Verdict::within_limits;
}

} // namespace gatherwright::advice
