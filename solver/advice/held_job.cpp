// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/held_job.hpp"

#include "solver/advice/change.hpp"
#include "solver/advice/ties.hpp"
#include "solver/plan/planner.hpp"

#include <utility>

namespace gatherwright::advice {

HeldJob::HeldJob(const Job &job, const Plan &plan, const DrawnEdges &edges, optimum::Work &work)
    : whole_(job), edges_(edges), work_(work), job_(with_lengths_held(job, plan)),
      joins_(std::exchange(job_.joins, {})), rules_(std::exchange(job_.rules, {})) {
  work.add(steps_to_plan(job));
}

std::vector<int> HeldJob::joins_with_pieces() const {
  std::vector<int> joins = dependence_.joins;
  std::vector<char> taken(joins_.size(), 0);
  for (const int j : joins)
    taken[j] = 1;
  for (const int p : dependence_.pieces)
    for (const Side side : all_sides)
      for (const SidePart &part : whole_.pieces[p].sides[side])
        if (std::exchange(taken[part.join.at], 1) == 0) joins.push_back(part.join.at);
  return joins;
}

void HeldJob::take(int length, Dependence dependence) {
  if (length_) job_.lengths[*length_].is = std::move(as_planned_);
  length_ = length;
  as_planned_ = *job_.lengths[length].fixed();
  dependence_ = std::move(dependence);
  job_.joins.clear();
  job_.rules.clear();
  edges_at_hand_.clear();
  joins_at_hand_ = joins_with_pieces();
  for (const int j : joins_at_hand_) {
    job_.joins.push_back(joins_[j]);
    if (!edges_.empty()) edges_at_hand_.push_back(edges_[j]);
  }
  job_.pieces = pieces_with_joins(whole_, dependence_.pieces, joins_at_hand_);
  for (Piece &piece : job_.pieces)
    piece.fabric.stock.reset(); // what else is cut from the cloth is not at hand
  for (const int r : dependence_.rules)
    job_.rules.push_back(rules_[r]);
}

std::optional<Plan> HeldJob::with(double value) {
  std::optional<PlanOutcome> outcome = tried(value);
  if (!outcome || !*outcome) return std::nullopt;
  return **std::move(outcome);
}

std::optional<PlanOutcome> HeldJob::tried(double value) {
  job_.lengths[*length_].is = Formula::of({value}, "");
  return outcome_again(job_, edges_at_hand_, work_);
}

std::optional<Conflict> HeldJob::conflict() {
  PlanOutcome outcome = plan_numbers(job_, edges_at_hand_, {.work = &work_});
  return outcome ? std::move(outcome->conflict) : std::nullopt;
}

} // namespace gatherwright::advice
