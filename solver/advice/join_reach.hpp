// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"
#include "solver/advice/line.hpp"

#include <optional>
#include <span>
#include <vector>

namespace gatherwright::advice {

/// What a join's segments are given, as functions of one length.
struct JoinLines {
  Line long_edge;
  Line band;
  std::vector<std::optional<Line>> segment_long; ///< per segment; nothing where it is to be found
  std::vector<std::optional<Line>> segment_band;
  std::vector<Line> fades; ///< per segment: over how much of its band its extra rises and falls, both together
};

/// Cuts `reach` down to where the join's segments can all be within `limits`, in closed form: each segment's cloth lies
/// between two multiples of its band, so only the sums along the two edges tie segments together.
void keep_within_limits(Reach &reach, const Join &join, const JoinLines &lines, std::span<const Limits> limits);

} // namespace gatherwright::advice
