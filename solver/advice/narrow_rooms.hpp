// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "solver/advice/dependence.hpp"
#include "solver/optimum/work.hpp"
#include "solver/plan/drawn.hpp"

namespace gatherwright::advice {

/// Narrows the rooms of a job in which a segment that fades has its band found beside another's, or a flat one is to be
/// found beside another's band and another's cloth: the sums that rooms are reckoned from do not say which of them gets
/// how much, and one that gets too little for its fade, or nothing, is a fault. Likewise where a part of a piece's side
/// is as long as the solver chooses. So each end is found by planning, to 1e-9 of the greater. What is within limits is
/// taken to be one stretch. What is done is counted into `work`. False: that is spent, and the rest of the lengths have
/// no room.
bool narrow_rooms(const Job &job, Plan &plan, const DrawnEdges &edges, const Dependents &dependents,
                  optimum::Work &work);

} // namespace gatherwright::advice
