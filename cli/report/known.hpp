// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <vector>

namespace gatherwright::report {

/// Which lengths have a value: all of them, or, where the rules conflict and nothing could be chosen, those that no
/// free length enters.
std::vector<bool> known_lengths(const Job &job, const Plan &plan);

/// Whether a rule's two sides have values, likewise.
bool rule_known(const Plan &plan, const RulePlan &rule);

} // namespace gatherwright::report
