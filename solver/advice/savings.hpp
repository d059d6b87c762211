// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "solver/optimum/work.hpp"
#include "solver/plan/drawn.hpp"

namespace gatherwright::advice {

/// Lengths that, each alone, would save at least a step of a cloth: the nearest value on the tape within the length's
/// room at which what is bought falls by as much, the rest as planned and what derives from it moving too. Of a plan
/// within limits whose pieces are laid, and of lengths that are not kept. Each is planned and laid before it is said.
/// Where some pieces grow with a length and others shrink, only values near the present one are looked at. Layouts are
/// counted into `work` by their rectangles. False: that is spent, and some were not tried.
bool find_savings(const Job &job, Plan &plan, const DrawnEdges &edges, optimum::Work &work);

} // namespace gatherwright::advice
