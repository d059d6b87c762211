// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"

namespace gatherwright {

struct PlannerSettings {
  bool profile = false; ///< stations along every join
};

/// A plan without advice: everything but rooms and remedies.
PlanOutcome plan_numbers(const Job &job, const PlannerSettings &settings);

} // namespace gatherwright
