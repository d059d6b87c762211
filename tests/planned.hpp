// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"

#include <catch2/catch.hpp>

#include <utility>
#include <variant>

namespace gatherwright::tests {

/// The plan of a job; the test fails where it cannot be planned.
inline Plan plan_of(const Job &job, const PlanSettings &settings = {}) {
  PlanOutcome outcome = plan(job, settings);
  if (!outcome) FAIL("the job cannot be planned, for a reason of kind " << outcome.fault().front().index());
  return *std::move(outcome);
}

/// Why there is no plan; none where there is one.
template <class Value> Refusals refusals_of(const Outcome<Value, Refusals> &outcome) {
  return outcome ? Refusals() : outcome.fault();
}

/// The only reason why there is no plan, which is of this kind; else the test fails.
template <class Kind, class Value> Kind only_refusal(const Outcome<Value, Refusals> &outcome) {
  REQUIRE_FALSE(outcome);
  REQUIRE(outcome.fault().size() == 1);
  const auto *kind = std::get_if<Kind>(&outcome.fault().front());
  REQUIRE(kind != nullptr);
  return *kind;
}

} // namespace gatherwright::tests
