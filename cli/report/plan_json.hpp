// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <string>

namespace gatherwright::report {

/// A plan as JSON, its keys in their fixed order, lengths in the job's unit. The plan must be of the job;
/// where it has profiles, they are written if `profiles` asks for them.
std::string plan_json(const Job &job, const Plan &plan, bool profiles = true);

} // namespace gatherwright::report
