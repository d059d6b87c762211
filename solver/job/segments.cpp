// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/validate.hpp"

#include <algorithm>

namespace gatherwright {

namespace {

bool gives_neither(const SegmentGives &segment) {
  return !segment.long_edge && !segment.band;
}

} // namespace

std::vector<SegmentLacks> lacking(std::span<const SegmentGives> segments) {
  const bool equal_parts = std::any_of(segments.begin(), segments.end(), [](const SegmentGives &segment) {
    return takes_fullness(segment.kind) && gives_neither(segment);
  });
  std::vector<SegmentLacks> lacks;
  bool flat_left_open = false;
  for (std::size_t i = 0; i < segments.size(); ++i) {
    const SegmentGives &segment = segments[i];
    const int at = static_cast<int>(i);
    if (!takes_fullness(segment.kind) && gives_neither(segment)) {
      if (equal_parts)
        lacks.push_back({at, SegmentLacks::Lack::flat_beside_equal});
      else if (flat_left_open)
        lacks.push_back({at, SegmentLacks::Lack::second_flat});
      flat_left_open = true;
    } else if (equal_parts && takes_fullness(segment.kind) && !segment.band && segment.long_edge) {
      lacks.push_back({at, SegmentLacks::Lack::band_beside_equal});
    }
  }
  return lacks;
}

} // namespace gatherwright
