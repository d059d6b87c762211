// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "solver/plan/drawn.hpp"

#include <span>
#include <vector>

namespace gatherwright::advice {

/// One join as a job by itself, which names nothing: all that it is made of stands in it as figures.
struct LoneJoin {
  Job job;
  DrawnEdges edges;

  Join &join() { return job.joins.front(); }
  const Join &join() const { return job.joins.front(); }
};

LoneJoin with_join(LoneJoin lone, Join join);

/// The joins of a planned job one by one, every length as it was cut. What a join takes is then its own, however many
/// lengths the job has.
class LoneJoins {
public:
  /// The plan is of no conflict. All must outlive this.
  LoneJoins(const Job &job, const Plan &plan, const DrawnEdges &edges);

  /// What can be eased in on a drawn edge stays as it was planned, see with_lengths_held().
  LoneJoin lone(JoinId at) const;

  /// A join as it is written but for the figures, as the join of a job that lone() made.
  Join as_written(JoinId at) const;

private:
  Formula figure(const Formula &formula) const;
  Join in_figures(Join join) const;

  const Job &job_;
  const DrawnEdges &edges_;
  std::vector<Affine> symbols_;
  Job bare_; ///< without anything that names or is named
  std::vector<Join> joins_;
};

} // namespace gatherwright::advice
