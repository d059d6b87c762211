// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/job/read_job.hpp"
#include "tests/outcomes.hpp"
#include "tests/planned.hpp"

#include <string_view>
#include <variant>
#include <vector>

namespace gatherwright::tests {

/// A job from its text; the test fails where it does not read.
inline Job job_of(std::string_view text) {
  auto read = cli::read_job(text);
  if (auto *faults = tests::fault_in(read))
    FAIL("the job does not read: " << faults->front().pointer << ": " << faults->front().fault.what << "\n" << text);
  return (*std::move(read)).job;
}

inline Plan plan_of(std::string_view text, const PlanSettings &settings = {}) {
  return plan_of(job_of(text), settings);
}

} // namespace gatherwright::tests
