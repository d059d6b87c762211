// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "solver/advice/dependence.hpp"
#include "solver/optimum/work.hpp"
#include "solver/plan/drawn.hpp"

namespace gatherwright::advice {

/// Where cutting and marking errors could take a segment past a limit, adds a note on the length that moves its
/// fullness the most: `value` is by how much for each millimetre. What is done is counted into `work`. False: that is
/// spent, and such notes are left out.
bool note_sensitive_lengths(const Job &job, Plan &plan, const DrawnEdges &edges, const Dependents &dependents,
                            optimum::Work &work);

} // namespace gatherwright::advice
