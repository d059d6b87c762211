// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "solver/advice/dependence.hpp"
#include "solver/optimum/work.hpp"
#include "solver/plan/drawn.hpp"

namespace gatherwright::advice {

/// Of a plan that is not within limits a room says what would do, so it is tried: the job is planned just inside either
/// end of it, and a room of which one is not within limits is taken away. What is done is
/// counted into `work`. False: that is spent, and the rest of the lengths have no room.
bool try_rooms(const Job &job, Plan &plan, const DrawnEdges &edges, const Dependents &dependents, optimum::Work &work);

} // namespace gatherwright::advice
