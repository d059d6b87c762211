// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "plan/drawn.hpp"

namespace gatherwright::advice {

/// Of a plan that is not within limits a room says what would do, so it is tried: the job is planned just inside either
/// end of it, and a room of which one is not within limits is taken away. In a job so large that this would take long,
/// so are those of the lengths that come last.
void try_rooms(const Job &job, Plan &plan, const DrawnEdges &edges);

} // namespace gatherwright::advice
