// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "solver/plan/drawn.hpp"
#include "solver/plan/segments.hpp"

#include <span>
#include <vector>

namespace gatherwright {

inline constexpr int most_marks = 10000;

/// Marks of all joins of a job together, those of mirrored pieces counted too: so many take 250 MB.
inline constexpr int most_marks_in_all = 1200000;

/// How many marks a join gets, without placing them; more than `most_marks` is a fault of the job.
double mark_count(const Join &join, std::span<const SegmentPlan> segments);

/// Reference and pin marks of a join, on the tape, with what lies between each and the next. `spreads` is as long as
/// `segments`, `count` what mark_count() says.
std::vector<Mark> marks_of(const Job &job, const Join &join, const JoinPlan &plan,
                           std::span<const SegmentSpread> spreads, const DrawnSides &sides, double count);

/// The same places read from the other end, names kept (`ends_segment` as it was).
std::vector<Mark> mirrored(const Join &join, const JoinPlan &plan, std::span<const Mark> marks);

} // namespace gatherwright
