// SPDX-License-Identifier: GPL-3.0-or-later
#include "advice/sensitivity.hpp"

#include "plan/planner.hpp"

#include <cmath>

namespace gatherwright::advice {

namespace {

/// The plan with every length as cut, one of them longer by a millimetre.
std::optional<Plan> planned_longer(const Job &job, const Plan &plan, const DrawnEdges &edges, int length) {
  Job changed = job;
  for (std::size_t i = 0; i < changed.lengths.size(); ++i) {
    NamedLength &named = changed.lengths[i];
    const bool longer = static_cast<int>(i) == length;
    if (!named.free && !longer) continue;
    named.free = false;
    named.is = fixed_formula({plan.lengths[i].is + (longer ? 1.0 : 0.0)}, "");
  }
  PlanOutcome outcome = plan_numbers(changed, edges);
  auto *made = std::get_if<Plan>(&outcome);
  if (!made || made->verdict == Verdict::rules_conflict) return std::nullopt;
  return std::move(*made);
}

} // namespace

void note_sensitive_lengths(const Job &job, Plan &plan, const DrawnEdges &edges) {
  std::vector<Note> at_risk;
  for (const Note &note : plan.notes)
    if (note.kind == Note::Kind::give_above_most || note.kind == Note::Kind::give_below_least) at_risk.push_back(note);
  if (at_risk.empty()) return;
  std::vector<std::optional<Plan>> longer;
  for (std::size_t i = 0; i < job.lengths.size(); ++i)
    longer.push_back(planned_longer(job, plan, edges, static_cast<int>(i)));
  for (const Note &risk : at_risk) {
    Note found{.kind = Note::Kind::most_sensitive, .join = risk.join, .segment = risk.segment};
    for (std::size_t i = 0; i < longer.size(); ++i) {
      if (!longer[i]) continue;
      const double moved = longer[i]->joins[risk.join].segments[risk.segment].fullness -
                           plan.joins[risk.join].segments[risk.segment].fullness;
      if (std::abs(moved) <= std::abs(found.value) + 1e-12) continue;
      found.length = static_cast<int>(i);
      found.value = moved;
    }
    if (found.length >= 0) plan.notes.push_back(found);
  }
}

} // namespace gatherwright::advice
