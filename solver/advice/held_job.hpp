// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "solver/advice/dependence.hpp"
#include "solver/advice/renumbered.hpp"
#include "solver/optimum/work.hpp"
#include "solver/plan/drawn.hpp"

#include <optional>
#include <vector>

namespace gatherwright::advice {

/// A planned job with every length held as it was cut, to see what happens where one of them is another. What that
/// cannot alter is as it was planned, and is not planned again.
class HeldJob {
public:
  /// The plan is of no conflict. What is done is counted into `work`.
  HeldJob(const Job &job, const Plan &plan, const DrawnEdges &edges, optimum::Work &work);

  /// Takes up a length and what depends on it.
  void take(int length, Dependence dependence);
  const Dependence &dependence() const { return dependence_; }

  /// The verdicts with that length at a value: of the joins, the rules and the pieces that depend on it, in their
  /// order, and behind those joins of the others that are sewn to the pieces. Nothing where the job would be refused,
  /// or the work is spent.
  std::optional<Plan> with(double value);

  /// The same with what is found wrong, or why the job would be refused: by the numbers of what is at hand. Nothing
  /// where the work is spent.
  std::optional<PlanOutcome> tried(double value);

  /// Of the value tried last, at which it conflicts.
  std::optional<Conflict> conflict();

  /// Which of the job's joins, rules and pieces are at hand.
  Numbers numbers() const { return {joins_at_hand_, dependence_.rules, dependence_.pieces}; }

private:
  std::vector<int> joins_with_pieces() const;

  const Job &whole_;
  const DrawnEdges &edges_;
  optimum::Work &work_;
  Job job_; ///< with the joins, rules and pieces at hand
  std::vector<Join> joins_;
  std::vector<Rule> rules_;
  std::vector<int> joins_at_hand_;
  DrawnEdges edges_at_hand_;
  std::optional<int> length_; ///< at hand
  Formula as_planned_;
  Dependence dependence_;
};

} // namespace gatherwright::advice
