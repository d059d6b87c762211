// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/sensitivity.hpp"

#include "solver/advice/held_job.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace gatherwright::advice {

namespace {

/// A fullness at risk, and the length found so far that moves it the most.
struct Risk {
  SegmentAt at;
  std::optional<LengthId> length = std::nullopt;
  double moved = 0;
};

std::vector<Risk> at_risk(const Plan &plan) {
  std::vector<Risk> risks;
  for (const Note &note : plan.notes)
    if (const auto *give = std::get_if<note::GivePasses>(&note)) risks.push_back({give->at});
  return risks;
}

/// Looks at what a length that is cut longer by a millimetre moves.
void look_at(int length, const Plan &plan, const Plan &longer, const Dependence &on_it, std::vector<Risk> &risks) {
  for (Risk &risk : risks) {
    const int join = risk.at.join.at;
    const auto at = std::lower_bound(on_it.joins.begin(), on_it.joins.end(), join);
    if (at == on_it.joins.end() || *at != join) continue;
    const double moved = longer.joins[at - on_it.joins.begin()].segments[risk.at.segment].fullness -
                         plan.joins[join].segments[risk.at.segment].fullness;
    if (std::abs(moved) <= std::abs(risk.moved) + 1e-12) continue;
    risk.length = LengthId(length);
    risk.moved = moved;
  }
}

} // namespace

bool note_sensitive_lengths(const Job &job, Plan &plan, const DrawnEdges &edges, const Dependents &dependents,
                            optimum::Work &work) {
  std::vector<Risk> risks = at_risk(plan);
  if (risks.empty()) return true;
  std::vector<char> is_at_risk(job.joins.size(), 0);
  for (const Risk &risk : risks)
    is_at_risk[risk.at.join.at] = 1;
  HeldJob held(job, plan, edges, work);
  for (int i = 0; i < static_cast<int>(job.lengths.size()); ++i) {
    Dependence on_it = dependents.of(i);
    work.add(steps_through(job, on_it) + static_cast<std::int64_t>(risks.size()));
    if (std::none_of(on_it.joins.begin(), on_it.joins.end(), [&](int j) { return is_at_risk[j] != 0; })) continue;
    held.take(i, std::move(on_it));
    const std::optional<Plan> longer = held.with(*plan.lengths[i].is + 1);
    if (work.spent()) return false;
    if (longer && longer->verdict != Verdict::rules_conflict) look_at(i, plan, *longer, held.dependence(), risks);
  }
  for (const Risk &risk : risks)
    if (risk.length) plan.notes.push_back(note::MostSensitive{*risk.length});
  return true;
}

} // namespace gatherwright::advice
