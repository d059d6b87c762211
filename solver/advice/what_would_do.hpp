// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "solver/optimum/work.hpp"
#include "solver/plan/drawn.hpp"

namespace gatherwright::advice {

/// What findings and notes say would do: what an edge alone would have to be, edges the other way round, a longer
/// stitch, a stretch gauged. Each is tried by planning its join with just that, every length as cut, and said only
/// where the join, or the stretch that a note is of, is then within limits. What is
/// done is counted into `work`. False: that is spent, and of the joins that come last nothing is said.
bool say_what_would_do(const Job &job, Plan &plan, const DrawnEdges &edges, optimum::Work &work);

} // namespace gatherwright::advice
