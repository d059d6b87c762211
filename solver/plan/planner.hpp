// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "solver/optimum/elimination.hpp"
#include "solver/optimum/work.hpp"
#include "solver/plan/drawn.hpp"

namespace gatherwright {

/// Steps of work that one job may take, as the optimum counts them: some minutes'. A job that would take more is
/// refused.
inline constexpr std::int64_t most_work = 500'000'000'000;

/// For telling which conditions of a conflict could be left out.
inline constexpr std::int64_t most_work_of_conflict = 2'500'000'000;

struct PlannerSettings {
  bool profile = false;          ///< stations along every join
  bool outlines = false;         ///< points of every drawn edge
  bool verdicts_only = false;    ///< of a trial: no marks, spreads or notes, and of a conflict only that there is one
  bool limits_missed = false;    ///< of a part of a job: what is not in it cannot keep all its limits
  optimum::Work *work = nullptr; ///< where what is done is counted, and its bound; left out: counted up to `most_work`
  optimum::Work *work_of_conflict = nullptr; ///< likewise
};

/// A plan without advice: everything but rooms and remedies. `edges`: the job's drawn edges. `start`: see
/// allot::allot(). A job that would be too much work is refused.
PlanOutcome plan_numbers(const Job &job, const DrawnEdges &edges, const PlannerSettings &settings = {},
                         const optimum::Elimination *start = nullptr);

} // namespace gatherwright
