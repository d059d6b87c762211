// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"

#include <vector>

/// What a job's formulas come to, with the measures that it holds.
namespace gatherwright {

/// Every formula that has no value, and every fixed length, range, edge and given part of a segment that comes to no
/// length of cloth: the part of `validate` that measures can alter. What depends on what is at fault is not told as
/// well. The job must have no more in it than is looked at; it may have any other fault.
std::vector<PlacedFault> faults_of_values(const Job &job);

/// The unit in which faults tell lengths: the job's, where that is one it may be in.
Unit told_in(const Job &job);

} // namespace gatherwright
