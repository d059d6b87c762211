// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <optional>

/// Marks on the two edges of a join. Lengths are millimetres.
namespace gatherwright {

/// A mark's place on one edge.
struct MarkPlace {
  double exact = 0;
  double tape = 0;                             ///< a whole count of steps, but for the edge's own end
  std::optional<double> cut;                   ///< from the cut edge, where the edge has ends
  std::optional<std::array<double, 2>> at;     ///< on the page, in path units, y downwards
  std::optional<std::array<double, 2>> normal; ///< towards the cut edge, length 1
};

///   1. Marks lie on whole steps of the tape, but for an edge's own end.
///   2. An edge's start ends no segment, and only what is mirrored has marks from its other end.
struct Mark {
  int segment = 0; ///< that begins here; the last mark: the last; a pin: the one it lies in
  bool reference = false;
  std::optional<int> ends_segment; ///< reference marks: the segment whose end it is; none at the start of an edge
  MarkPlace long_edge;
  MarkPlace band;
  std::optional<double> fullness_to_next;
  std::optional<double> stitches_to_next; ///< hole to hole
};

} // namespace gatherwright
