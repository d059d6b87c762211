// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/job/parts.hpp"

namespace gatherwright::job {

/// Tells what is wrong with the pieces of a job, but not what their formulas come to. `cloth_known`: the job's cloth is
/// not at fault itself.
void judge_pieces(const Job &job, bool cloth_known, Judge &judge);

} // namespace gatherwright::job
