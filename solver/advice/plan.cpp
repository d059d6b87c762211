// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/plan.hpp"

#include "advice/narrow_rooms.hpp"
#include "advice/remedies.hpp"
#include "advice/room.hpp"
#include "advice/sensitivity.hpp"
#include "advice/tried_rooms.hpp"
#include "advice/what_would_do.hpp"
#include "allot/scheme.hpp"
#include "optimum/elimination.hpp"
#include "plan/planner.hpp"

#include <optional>

namespace gatherwright {

struct Prepared::Structure {
  DrawnEdges edges;
  std::optional<optimum::Elimination> start; ///< what must hold of the job, eliminated
};

namespace {

PlanOutcome plan_with_advice(const Job &job, const PlanSettings &settings, const DrawnEdges &edges,
                             const optimum::Elimination *start) {
  PlanOutcome outcome = plan_numbers(job, edges, {.profile = settings.profile, .outlines = settings.outlines}, start);
  auto *made = std::get_if<Plan>(&outcome);
  if (!made || !settings.advice) return outcome;
  if (made->verdict != Verdict::rules_conflict) {
    advice::say_what_would_do(job, *made, edges);
    advice::give_rooms(job, *made);
    advice::narrow_rooms(job, *made, edges);
    advice::try_rooms(job, *made, edges);
    advice::note_sensitive_lengths(job, *made, edges);
  }
  made->remedies = advice::remedies(job, *made, edges);
  return outcome;
}

} // namespace

std::variant<Prepared, std::vector<PlacedFault>> Prepared::prepare(const Job &job) {
  auto drawn = draw_edges(job);
  if (auto *faults = std::get_if<std::vector<PlacedFault>>(&drawn)) return std::move(*faults);
  Structure structure{std::get<DrawnEdges>(std::move(drawn)), std::nullopt};
  // A job may have faults that a wearer's measures mend: then each of them begins from nothing.
  const allot::SchemeOutcome scheme = allot::scheme(job, lengths_of(structure.edges));
  if (const auto *sound = std::get_if<allot::Scheme>(&scheme)) structure.start.emplace(sound->problem);
  return Prepared(std::make_shared<const Structure>(std::move(structure)));
}

PlanOutcome Prepared::plan(const Job &job, const PlanSettings &settings) const {
  return plan_with_advice(job, settings, structure_->edges, structure_->start ? &*structure_->start : nullptr);
}

PlanOutcome plan(const Job &job, const PlanSettings &settings) {
  const auto drawn = draw_edges(job);
  if (const auto *faults = std::get_if<std::vector<PlacedFault>>(&drawn)) return *faults;
  return plan_with_advice(job, settings, std::get<DrawnEdges>(drawn), nullptr);
}

} // namespace gatherwright
