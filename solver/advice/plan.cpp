// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/plan.hpp"

#include "advice/remedies.hpp"
#include "advice/room.hpp"
#include "advice/sensitivity.hpp"
#include "plan/planner.hpp"

namespace gatherwright {

struct Prepared::Structure {
  DrawnEdges edges;
};

std::variant<Prepared, std::vector<PlacedFault>> Prepared::prepare(const Job &job) {
  auto drawn = draw_edges(job);
  if (auto *faults = std::get_if<std::vector<PlacedFault>>(&drawn)) return std::move(*faults);
  return Prepared(std::make_shared<const Structure>(Structure{std::get<DrawnEdges>(std::move(drawn))}));
}

PlanOutcome Prepared::plan(const Job &job, const PlanSettings &settings) const {
  const DrawnEdges &edges = structure_->edges;
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

PlanOutcome plan(const Job &job, const PlanSettings &settings) {
  auto prepared = Prepared::prepare(job);
  if (auto *faults = std::get_if<std::vector<PlacedFault>>(&prepared)) return std::move(*faults);
  return std::get<Prepared>(prepared).plan(job, settings);
}

} // namespace gatherwright
