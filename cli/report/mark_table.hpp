// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/report/shown_marks.hpp"
#include "cli/report/table.hpp"

#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <cstddef>
#include <limits>
#include <string>
#include <vector>

namespace gatherwright::report {

/// Marks of a join, a row each: its number and name, its places on both edges as read off the tape, and the fullness,
/// extra and stitches to the next that is shown. `from_other_end`: of the mirrored piece. The first `most_rows` of
/// those that are shown.
Table mark_table(const Job &job, const Join &asked, const JoinPlan &planned, const std::vector<Mark> &marks,
                 bool from_other_end, const ShownMarks &shown,
                 std::size_t most_rows = std::numeric_limits<std::size_t>::max());

/// A mark's name in a table or on a strip: the ends of an edge that have none of their own are its start and its end
/// from either side. Of a half that stands for both, both names.
std::string mark_said(const Join &asked, const JoinPlan &planned, const std::vector<Mark> &marks, std::size_t mark,
                      bool from_other_end, bool half);

} // namespace gatherwright::report
