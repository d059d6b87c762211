// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/report/json_text.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

namespace gatherwright::report {

/// Writes what is cut as two fields of the object that is open: `pieces`, and `cloth` with the layouts. Of a job
/// without pieces it writes neither; where the rules conflict both are empty.
void pieces_json(JsonText &json, const Job &job, const Plan &plan);

/// Likewise `savings`. `told`: the job with its names as sentences have them.
void savings_json(JsonText &json, const Job &job, const Plan &plan, const Job &told);

} // namespace gatherwright::report
