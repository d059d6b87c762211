// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/outcome.hpp"
#include "solver/edge/curve.hpp"

#include <cstddef>
#include <string_view>

/// SVG path data to a curve.
namespace gatherwright::edge {

/// What may be drawn at the most: pieces, and how far from the origin any point may lie or any radius reach.
inline constexpr std::size_t most_pieces = 1'000'000;
inline constexpr double farthest = 1e7;

/// Numbers nearer to 0 than this are 0, so that no product of a few lengths falls out of the range of doubles.
inline constexpr double nearest = 1e-30;

struct PathFault {
  std::size_t offset = 0; ///< the byte, from 0, at which the path stops being right
  Fault fault;            ///< names the offset too
};

using PathOutcome = Outcome<Curve, PathFault>;

/// Reads path data by the grammar of SVG 2 (W3C, "Paths", "The grammar for path data"): M L H V C S Q T A Z and their
/// relative forms, repeated arguments, compact flags, exponents. Where the grammar and the text of the specification
/// part, the text is followed: the rotation of an arc may have a sign, and the sign of a radius is dropped. A path that
/// is wrong anywhere is refused whole. It must draw one connected run with some extent; a moveto that draws nothing is
/// no run. Closed where it ends with Z. All points of the curve lie within `farthest` of both axes.
PathOutcome read_path(std::string_view text);

} // namespace gatherwright::edge
