// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

namespace gatherwright::paper {

/// Named marks by name, or by number alone where a table of their names stands beside the picture.
enum class MarksCalled { by_name, by_number };

/// The long edge over the band to one scale, with a line from each mark of the one to its match on the other, `width`
/// millimetres wide and as high as it takes. Named marks have what they are called, pins their numbers, as far as there
/// is room. The label says in words what it shows. The join must be one that `can_be_drawn`.
Page join_picture(const Job &job, const Join &asked, const JoinPlan &planned, double width,
                  MarksCalled called = MarksCalled::by_name);

} // namespace gatherwright::paper
