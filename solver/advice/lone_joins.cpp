// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/lone_joins.hpp"

#include "solver/advice/change.hpp"
#include "solver/job/settled.hpp"

#include <optional>
#include <utility>
#include <variant>

namespace gatherwright::advice {

LoneJoin with_join(LoneJoin lone, Join join) {
  lone.join() = std::move(join);
  return lone;
}

LoneJoins::LoneJoins(const Job &job, const Plan &plan, const DrawnEdges &edges)
    : job_(job), edges_(edges), bare_(with_lengths_held(job, plan)) {
  symbols_ = values_of_symbols(bare_);
  joins_ = std::exchange(bare_.joins, {});
  bare_.measures.clear();
  bare_.lengths.clear();
  bare_.rules.clear();
  bare_.pieces.clear();
  if (bare_.allowance) bare_.allowance = figure(*bare_.allowance);
}

LoneJoin LoneJoins::lone(JoinId at) const {
  LoneJoin lone{bare_, {}};
  lone.job.joins.push_back(in_figures(joins_[at.at]));
  if (!edges_.empty()) lone.edges.push_back(edges_[at.at]);
  return lone;
}

Join LoneJoins::as_written(JoinId at) const {
  return in_figures(job_[at]);
}

/// With every length held all formulas are fixed, and the job was planned, so all have a value.
Formula LoneJoins::figure(const Formula &formula) const {
  return Formula::of({evaluate(formula, symbols_)->constant}, "");
}

Join LoneJoins::in_figures(Join join) const {
  const auto put = [this](Formula &formula) { formula = figure(formula); };
  for (Edge *edge : {&join.long_edge, &join.band})
    if (auto *length = std::get_if<Formula>(&edge->is)) put(*length);
  for (Segment &segment : join.segments)
    for (std::optional<Formula> *given : {&segment.long_edge, &segment.band})
      if (*given) put(**given);
  visit_fixed(join, JoinId(0), [&](Formula &formula, const auto &...) { put(formula); });
  return join;
}

} // namespace gatherwright::advice
