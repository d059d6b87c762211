// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"

#include <vector>

namespace gatherwright {

/// The job's lengths, each after those that its formulas name, the earliest first where there is a choice; without
/// those that go round in a ring and those that need one.
std::vector<int> order_of_lengths(const Job &job);

} // namespace gatherwright
