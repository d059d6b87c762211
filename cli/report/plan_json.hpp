// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <string>

namespace gatherwright::report {

/// A plan as JSON, its keys in their fixed order, lengths in the job's unit. The plan must be of the job.
std::string plan_json(const Job &job, const Plan &plan);

} // namespace gatherwright::report
