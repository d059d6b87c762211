// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "optimum/elimination.hpp"
#include "plan/drawn.hpp"

namespace gatherwright {

struct PlannerSettings {
  bool profile = false;       ///< stations along every join
  bool outlines = false;      ///< points of every drawn edge
  bool verdicts_only = false; ///< of a trial: no marks, spreads, findings or notes
};

/// A plan without advice: everything but rooms and remedies. `edges`: the job's drawn edges. `start`: see
/// allot::allot().
PlanOutcome plan_numbers(const Job &job, const DrawnEdges &edges, const PlannerSettings &settings = {},
                         const optimum::Elimination *start = nullptr);

} // namespace gatherwright
