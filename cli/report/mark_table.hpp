// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/report/table.hpp"

#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <cstddef>
#include <limits>
#include <vector>

namespace gatherwright::report {

/// Marks of a join, a row each: its number and name, its places on both edges as read off the tape, and the fullness,
/// extra and stitches to the next. `from_other_end`: of the mirrored piece. The first `most_rows` of them.
Table mark_table(const Job &job, const Join &asked, const JoinPlan &planned, const std::vector<Mark> &marks,
                 bool from_other_end, std::size_t most_rows = std::numeric_limits<std::size_t>::max());

} // namespace gatherwright::report
