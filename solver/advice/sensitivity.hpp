// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "plan/drawn.hpp"

namespace gatherwright::advice {

/// Where cutting and marking errors could take a segment past a limit, adds a note on the length that moves its
/// fullness the most: `value` is by how much for each millimetre.
void note_sensitive_lengths(const Job &job, Plan &plan, const DrawnEdges &edges);

} // namespace gatherwright::advice
