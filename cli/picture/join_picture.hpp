// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

namespace gatherwright::paper {

/// The long edge over the band to one scale, with a line from each mark of the one to its match on the other, `width`
/// millimetres wide and as high as it takes. Named marks have their names, pins their numbers as far as there is room.
/// The label says in words what it shows. The join must be one that `can_be_drawn`.
Page join_picture(const Job &job, const Join &asked, const JoinPlan &planned, double width);

} // namespace gatherwright::paper
