// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "solver/advice/dependence.hpp"
#include "solver/advice/ties.hpp"
#include "solver/optimum/work.hpp"
#include "solver/plan/drawn.hpp"

#include <map>
#include <optional>
#include <span>
#include <vector>

namespace gatherwright::advice {

/// Which changes of a planned job could mend what is wrong with it: those that are tied to it.
class WhatToTry {
public:
  /// What is done is counted into `work`; once that is spent, no more lengths are looked at.
  WhatToTry(const Job &job, const Plan &plan, const DrawnEdges &edges, optimum::Work &work);

  const Job &job() const { return job_; }
  const Plan &plan() const { return plan_; }
  const DrawnEdges &edges() const { return edges_; }
  const std::vector<double> &planned() const { return planned_; }  ///< of the job's lengths
  const std::vector<int> &bad_joins() const { return bad_joins_; } ///< not within limits; ascending
  bool rules_hold() const { return broken_rules_.empty(); }
  const std::vector<int> &bad_pieces() const { return bad_pieces_; } ///< likewise

  /// Lengths that may be changed and could mend a join, or all that is wrong; ascending.
  std::vector<int> lengths_for(std::optional<int> join) const;

  /// Whether a change that touches these knots could. What is not tied to it is no better for it.
  bool could_mend(std::span<const int> knots, std::optional<int> join) const;

  const std::vector<int> &knots_of_length(int length) const { return knots_[length]; }
  std::vector<int> knots_of_join(int join) const { return ties_.knots_of_join(join); }
  std::vector<int> knots_of_piece(int piece) const { return ties_.knots_of_piece(piece); }
  PartOfJob part(std::span<const int> knots) const { return ties_.part(job_, bare_, plan_, edges_, knots); }

private:
  const Job &job_;
  Job bare_; ///< without joins, rules and pieces, which every part has its own of
  const Plan &plan_;
  const DrawnEdges &edges_;
  std::vector<double> planned_;
  std::vector<int> bad_joins_, broken_rules_, bad_pieces_; ///< ascending
  Dependents dependents_;
  Ties ties_;
  std::vector<std::vector<int>> knots_;             ///< of each length
  std::map<int, std::vector<int>> lengths_of_knot_; ///< ascending
  std::vector<int> could_mend_rules_;               ///< lengths, ascending
};

} // namespace gatherwright::advice
