// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/advice/dependence.hpp"
#include "solver/optimum/work.hpp"
#include "solver/plan/planner.hpp"

namespace gatherwright::advice {

/// What working out one job may take, by what it is for, in steps of work: some thousand million of them are a
/// second. Where the plan itself takes more the job is refused; where advice does, the rest of it is left out, and a
/// note says so.
struct Budget {
  optimum::Work numbers{most_work};
  optimum::Work conflict{most_work_of_conflict};
  optimum::Work words{400'000'000}; ///< what findings and notes say would do
  optimum::Work rooms{400'000'000};
  optimum::Work sensitivity{400'000'000};
  optimum::Work remedies{1'200'000'000};
  optimum::Work stock{12'000}; ///< rectangles of layouts that are looked for
  optimum::Work savings{6000}; ///< likewise
};

/// What of a job no measure alters, where that is at hand.
struct Known {
  const optimum::Elimination *start = nullptr; ///< see allot::allot()
  const Dependents *dependents = nullptr;
};

/// Plans a job with advice, within a budget, which is lessened by what is done. `edges`: the job's drawn edges.
PlanOutcome plan_within(const Job &job, const PlanSettings &settings, const DrawnEdges &edges, const Known &known,
                        Budget &budget);

} // namespace gatherwright::advice
