// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <string>
#include <vector>

/// A job of the porters' smock and a plan of it, put together by hand, so that what is written of a plan is tested
/// without the solver. Figures are round and easily checked; they are no example of good sewing.
namespace sample {

/// Measures wrist 170 and hand 240; lengths cuff (wrist + 50 mm), slit 80, sleeve (free, 450 to 600). Joins: "sleeve
/// into cuff" (flat 30, gather), made twice, mirrored; "neck into collar", one unnamed gather.
gatherwright::Job job();

/// sleeve 520, so 30 + 490 into 30 + 190; neck 820 into 410.
gatherwright::Plan plan();

/// "sleeve into cuff", and its gathered stretch.
inline constexpr gatherwright::JoinId cuff_join{0};
inline constexpr gatherwright::SegmentAt fullness{cuff_join, 1};

/// Everything that may be told of the job with its pieces (sample_pieces.hpp), by every alternative and each of its
/// forms; figures that mean nothing.
std::vector<gatherwright::Finding> every_finding();
std::vector<gatherwright::Change> every_change(double by, double to);
std::vector<gatherwright::Note> every_note();
std::vector<gatherwright::Caution> every_caution();

/// The same job with every name replaced.
gatherwright::Job renamed(gatherwright::Job job, const std::string &name);

} // namespace sample
