// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"

#include <vector>

/// What a job's formulas come to, with the measures that it holds.
namespace gatherwright {

/// No edge is this long, and none this short: beyond these the counts of stitches would not be whole numbers of ints.
constexpr Length longest_length{1e8};   ///< 100 km
constexpr Length shortest_length{1e-6}; ///< a nanometre; shorter counts as 0

/// Whether a length is one that cloth can have: not below 0 nor above `longest_length` and, where `above_0`, not 0. The
/// value told is in `unit`.
std::optional<Fault> fault_of_length(Length length, bool above_0, Unit unit);

/// Every fixed length, range, edge and given part of a segment that comes to no length of cloth, and every formula that
/// has no value. What depends on one told is not told as well. A job as it was read has none; the same job with other
/// measures may.
std::vector<PlacedFault> faults_of_values(const Job &job);

} // namespace gatherwright
