// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/allot/place.hpp"

namespace gatherwright::allot {

std::optional<PlacedBy> placed_by(const Join &join, int segment, const std::function<bool(int)> &gives) {
  const auto all_give = [&](int first, int end) {
    for (int s = first; s < end; ++s)
      if (!gives(s)) return false;
    return true;
  };
  const int segments = static_cast<int>(join.segments.size());
  if (!gives(segment)) return std::nullopt;
  if (all_give(0, segment)) return PlacedBy{0, segment + 1, true};
  if (all_give(segment + 1, segments)) return PlacedBy{segment, segments, false};
  return std::nullopt;
}

const std::optional<Formula> &given_cloth(const Segment &segment) {
  const bool as_long_as_band = !takes_fullness(segment.kind) && !segment.long_edge;
  return as_long_as_band ? segment.band : segment.long_edge;
}

} // namespace gatherwright::allot
