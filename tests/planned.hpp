// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"

#include <catch2/catch.hpp>

#include <utility>
#include <variant>
#include <vector>

namespace gatherwright::tests {

/// The plan of a job; the test fails where it cannot be planned.
inline Plan plan_of(const Job &job, const PlanSettings &settings = {}) {
  PlanOutcome outcome = plan(job, settings);
  if (auto *faults = std::get_if<std::vector<PlacedFault>>(&outcome))
    FAIL("the job cannot be planned: " << faults->front().fault.what);
  return std::get<Plan>(std::move(outcome));
}

/// What keeps a job from being planned; none where it is planned.
inline std::vector<PlacedFault> faults_of(const PlanOutcome &outcome) {
  const auto *faults = std::get_if<std::vector<PlacedFault>>(&outcome);
  return faults ? *faults : std::vector<PlacedFault>();
}

} // namespace gatherwright::tests
