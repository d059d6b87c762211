// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"

#include <span>
#include <vector>

/// Whether what the segments of a join give can say how long each is.
namespace gatherwright {

/// Which of its lengths a segment gives.
struct SegmentGives {
  Kind kind = Kind::gather;
  bool long_edge = false;
  bool band = false;
};

/// A segment that gives too little beside the others.
struct SegmentLacks {
  enum class Lack {
    band_beside_equal, ///< not flat, a long edge and no band, beside segments that take equal parts of the band
    flat_beside_equal, ///< flat with neither, beside segments that take equal parts of the band
    second_flat        ///< flat with neither, after another such
  };
  int segment = 0;
  Lack lack = Lack::second_flat;
};

/// Segments that are not flat and give neither length take equal parts of the band that the others leave; so beside one
/// of these every other must give its part of the band. Where there is none, one flat segment may be left to be found.
std::vector<SegmentLacks> lacking(std::span<const SegmentGives> segments);

} // namespace gatherwright
