// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/plan.hpp"

#include "advice/remedies.hpp"
#include "advice/room.hpp"
#include "advice/sensitivity.hpp"
#include "plan/planner.hpp"

namespace gatherwright {

PlanOutcome plan(const Job &job, const PlanSettings &settings) {
  PlanOutcome outcome = plan_numbers(job, {.profile = settings.profile});
  auto *made = std::get_if<Plan>(&outcome);
  if (!made || !settings.advice || made->verdict == Verdict::rules_conflict) return outcome;
  advice::give_rooms(job, *made);
  advice::note_sensitive_lengths(job, *made);
  made->remedies = advice::remedies(job, *made, {}, {});
  return outcome;
}

} // namespace gatherwright
