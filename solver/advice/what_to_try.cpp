// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/what_to_try.hpp"

#include "solver/advice/change.hpp"

#include <algorithm>

namespace gatherwright::advice {

WhatToTry::WhatToTry(const Job &job, const Plan &plan, const DrawnEdges &edges, optimum::Work &work)
    : job_(job), bare_(job), plan_(plan), edges_(edges), dependents_(job), ties_(job, dependents_, work),
      knots_(job.lengths.size()) {
  bare_.joins.clear();
  bare_.rules.clear();
  bare_.pieces.clear();
  std::vector<int> of_piece;
  const auto is_over_stock = [&](int piece) {
    return std::any_of(plan.findings.begin(), plan.findings.end(), [&](const Finding &finding) {
      const auto *over = std::get_if<finding::OverStock>(&finding);
      if (over && of_piece.empty()) of_piece = cloths_of(job).of_piece;
      return over && of_piece[piece] == over->at.at;
    });
  };
  for (const LengthPlan &length : plan.lengths)
    planned_.push_back(length.is.value_or(0)); // of what has no value nothing is asked
  for (int j = 0; j < static_cast<int>(plan.joins.size()); ++j)
    if (plan.joins[j].verdict != Verdict::within_limits) bad_joins_.push_back(j);
  for (int r = 0; r < static_cast<int>(plan.rules.size()); ++r)
    if (!plan.rules[r].holds) broken_rules_.push_back(r);
  for (int p = 0; p < static_cast<int>(plan.pieces.size()); ++p)
    if (!plan.pieces[p].within_limits || is_over_stock(p)) bad_pieces_.push_back(p);
  work.add(steps_to_plan(job));
  for (int i = 0; i < static_cast<int>(job.lengths.size()) && !work.spent(); ++i) {
    if (job.lengths[i].keep) continue;
    const Dependence on_it = dependents_.of(i);
    work.add(steps_through(job, on_it));
    knots_[i] = ties_.knots_of(i, on_it);
    for (const int knot : knots_[i])
      lengths_of_knot_[knot].push_back(i);
    // A broken rule stays broken unless it depends on what is changed.
    if (std::includes(on_it.rules.begin(), on_it.rules.end(), broken_rules_.begin(), broken_rules_.end()))
      could_mend_rules_.push_back(i);
  }
}

std::vector<int> WhatToTry::lengths_for(std::optional<int> join) const {
  if (join) {
    const auto tied = lengths_of_knot_.find(ties_.knots_of_join(*join).front());
    return tied == lengths_of_knot_.end() ? std::vector<int>{} : tied->second;
  }
  std::vector<int> lengths;
  for (const int i : could_mend_rules_)
    if (could_mend(knots_[i], join)) lengths.push_back(i);
  return lengths;
}

bool WhatToTry::could_mend(std::span<const int> knots, std::optional<int> join) const {
  if (join) return ties_.is_tied(*join, knots);
  return std::all_of(bad_joins_.begin(), bad_joins_.end(), [&](int bad) { return ties_.is_tied(bad, knots); }) &&
         std::all_of(bad_pieces_.begin(), bad_pieces_.end(), [&](int bad) { return ties_.is_piece_tied(bad, knots); });
}

} // namespace gatherwright::advice
