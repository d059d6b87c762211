// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "solver/optimum/work.hpp"
#include "solver/plan/drawn.hpp"

namespace gatherwright::advice {

/// Adds to a plan the single changes that bring a planned job within limits, each tried by planning the job with it;
/// or, where none mends the whole job, those that mend one join. Changes of length first, the smallest share of what it
/// is first; then cloth, stitch, kinds. Never a measure, a length to keep or the cloth's width. None where the plan is
/// within limits. Where the rules conflict, of lengths alone: those that are fixed, and the ends of ranges that the
/// conflict names. What is done is counted into `work`. False: that is spent, and not every change was tried.
bool give_remedies(const Job &job, Plan &plan, const DrawnEdges &edges, optimum::Work &work);

} // namespace gatherwright::advice
