// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "plan/drawn.hpp"

#include <vector>

namespace gatherwright::advice {

/// Single changes that bring a planned job within limits, each tried by planning the job with it; or, where none mends
/// the whole job, those that mend one join. Changes of length first, the smallest share of what it is first; then
/// cloth, stitch, kinds. Never a measure, a length to keep or the cloth's width. Empty where the plan is within limits.
/// Where the rules conflict, of lengths alone: those that are fixed, and the ends of ranges that the conflict names.
std::vector<Remedy> remedies(const Job &job, const Plan &plan, const DrawnEdges &edges);

} // namespace gatherwright::advice
