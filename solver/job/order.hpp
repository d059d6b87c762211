// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"

#include <vector>

namespace gatherwright {

/// The job's lengths as `dependency_order` has them: each after those that its formulas name, and where they go round
/// in rings, these.
DependencyOrder dependencies_of_lengths(const Job &job);

/// The job's lengths, each after those that its formulas name, the earliest first where there is a choice; without
/// those that go round in a ring and those that need one.
std::vector<int> order_of_lengths(const Job &job);

} // namespace gatherwright
