// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "allot/scheme.hpp"
#include "gatherwright/plan.hpp"
#include "plan/drawn.hpp"

#include <optional>

/// A job with one thing changed, planned again.
namespace gatherwright::advice {

/// The job with a subject's length set: a fixed length or an edge is that long; of a free one the end of its range that
/// lies between it and `to` is moved there.
Job with_length(const Job &job, const allot::Subject &subject, double planned, double to);

Job with_weight(const Job &job, Weight weight);
Job with_stitch(const Job &job, int join, Length stitch);
Job with_kind(const Job &job, int join, int segment, Kind kind);

/// How a changed job turns out, its drawn edges as they were, advice left aside: its plan, or nothing where it cannot
/// be planned.
std::optional<Plan> planned_again(const Job &job, const DrawnEdges &edges);

/// Within limits as a whole (`join` -1), or as far as one join goes.
bool mended(const Plan &plan, int join);

} // namespace gatherwright::advice
