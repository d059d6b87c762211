// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "solver/advice/dependence.hpp"
#include "solver/advice/room.hpp"
#include "solver/optimum/work.hpp"
#include "solver/plan/drawn.hpp"

#include <span>

namespace gatherwright::advice {

/// What would no longer hold beyond each end of the rooms that lengths have: tried with the length one step of the tape
/// beyond, all else as planned. What set an end is looked at alone where `kept` says what that was, which costs little;
/// else the job is planned so. Nothing where that shows nothing. What is done, and what the names told come to, is
/// counted into `work`; once that is spent, nothing is said of the rest: false.
bool say_what_binds(const Job &job, Plan &plan, const DrawnEdges &edges, const Dependents &dependents,
                    std::span<const KeptEnds> kept, optimum::Work &work);

} // namespace gatherwright::advice
