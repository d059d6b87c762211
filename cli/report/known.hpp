// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"

namespace gatherwright::report {

/// Whether a rule's two sides have values: all have, or, where the rules conflict and nothing could be chosen, those
/// that no free length enters.
bool rule_known(const Plan &plan, const RulePlan &rule);

} // namespace gatherwright::report
