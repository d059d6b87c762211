// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/plan.hpp"

#include "advice/remedies.hpp"
#include "advice/room.hpp"
#include "advice/sensitivity.hpp"
#include "plan/planner.hpp"

namespace gatherwright {

PlanOutcome plan(const Job &job, const PlanSettings &settings) {
  auto drawn = draw_edges(job);
  if (auto *faults = std::get_if<std::vector<PlacedFault>>(&drawn)) return std::move(*faults);
  const DrawnEdges &edges = std::get<DrawnEdges>(drawn);
  PlanOutcome outcome = plan_numbers(job, edges, {.profile = settings.profile, .outlines = settings.outlines});
  auto *made = std::get_if<Plan>(&outcome);
  if (!made || !settings.advice) return outcome;
  if (made->verdict != Verdict::rules_conflict) {
    advice::give_rooms(job, *made);
    advice::note_sensitive_lengths(job, *made, edges);
  }
  made->remedies = advice::remedies(job, *made, edges);
  return outcome;
}

} // namespace gatherwright
