// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

/// A job of the porters' smock and a plan of it, put together by hand, so that what is written of a plan is tested
/// without the solver. Figures are round and easily checked; they are no example of good sewing.
namespace sample {

/// Measures wrist 170 and hand 240; lengths cuff (wrist + 50 mm), slit 80, sleeve (free, 450 to 600). Joins: "sleeve
/// into cuff" (flat 30, gather), made twice, mirrored; "neck into collar", one unnamed gather.
gatherwright::Job job();

/// sleeve 520, so 30 + 490 into 30 + 190; neck 820 into 410.
gatherwright::Plan plan();

/// The same job with every name replaced.
gatherwright::Job renamed(gatherwright::Job job, const std::string &name);

} // namespace sample
