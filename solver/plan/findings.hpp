// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"

#include <span>
#include <vector>

namespace gatherwright {

/// Whether a rule holds at these values of its sides: within 1e-9 of the sum of the absolute values of its terms,
/// `size`.
bool holds(Relation relation, double left, double right, double size);

/// What is wrong with a join, a finding for each segment that is not within limits; `plan` has its segments' verdicts.
/// What would do is for advice to say.
std::vector<Finding> findings_of(JoinId join, const JoinPlan &plan);

} // namespace gatherwright
