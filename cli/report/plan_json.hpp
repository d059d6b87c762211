// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/report/say.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <string>

namespace gatherwright::report {

/// A plan as JSON, its keys in their fixed order, lengths in the job's unit. The plan must be of the job;
/// where it has profiles, they are written if `profiles` asks for them. A long one goes to `say` in pieces, if that is
/// there, and what is returned is its end.
std::string plan_json(const Job &job, const Plan &plan, bool profiles = true, Say say = {});

} // namespace gatherwright::report
