// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/quantity.hpp"

#include <optional>
#include <span>
#include <string>

namespace gatherwright {

inline constexpr Length farthest_point{1e6}; ///< 1 km

/// A point read off squared paper: millimetres, x to the right, y upwards.
struct MeasuredPoint {
  double x = 0;
  double y = 0;
  bool corner = false; ///< the line may turn sharply there
};

/// A line drawn through points.
struct LineThrough {
  std::string path; ///< SVG path data in millimetres, y downwards
  Length misread;   ///< by how much its length changes at the most where each point is 1 mm off, to first order
};

/// The line through points, in their order, and back to the first where it is `closed`. Each coordinate is a cubic
/// spline over the lengths of the chords, which corners and the ends of an open line break off: natural there, so that
/// the line does not bend; a closed one without a corner is periodic (de Boor, A Practical Guide to Splines). Nothing
/// where there are fewer than two points, or three of a closed line, where one is further than `farthest_point` from
/// either axis, or where two neighbours (of a closed line, the last and the first too) are the same.
///   1. A line through points goes through each of them, smoothly but at corners.
///   2. Between two corners next to each other a line through points is straight.
///   3. Moving points by a little changes the length by no more than is said.
std::optional<LineThrough> line_through(std::span<const MeasuredPoint> points, bool closed);

} // namespace gatherwright
