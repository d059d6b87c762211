// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"

#include <functional>
#include <optional>

namespace gatherwright::allot {

/// What settles where a segment lies along its long edge: the cloth that segments `first` to `end` (not in it) give,
/// the segment's own among them, measured from the edge's start, else from its end.
struct PlacedBy {
  int first = 0;
  int end = 0;
  bool from_start = true;
};

/// Nothing where the cloth of the segment, or that of some before it and of some after it, is not given. `gives`:
/// whether a segment's cloth is given by figures that are fixed.
std::optional<PlacedBy> placed_by(const Join &join, int segment, const std::function<bool(int)> &gives);

/// Which of a segment's formulas gives its cloth: of a flat one that gives no long edge the band; nothing where none
/// does.
const std::optional<Formula> &given_cloth(const Segment &segment);

} // namespace gatherwright::allot
