// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "gatherwright/id.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <cstddef>

namespace gatherwright::paper {

/// Of how many points the picture of an edge as it is drawn is made; 0 where there is none to make: the edge is a
/// length, the plan has no outline of it, or nobody could see a line so long in so small a place.
std::size_t points_as_drawn(const JoinPlan &planned, WhichEdge edge);

/// An edge as it is drawn, to a scale that is shown and no larger than life, `width` millimetres wide and as high as it
/// takes: the cut edge, the stitching line dashed, the marks across both, the allowances at its ends, and on which side
/// the garment lies. Marks have their names or numbers as far as there is room. The label says in words what it shows.
/// `points_as_drawn` must not be 0.
Page drawn_edge_picture(const Job &job, const Join &asked, const JoinPlan &planned, WhichEdge edge, double width);

} // namespace gatherwright::paper
