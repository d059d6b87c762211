// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/cloth.hpp"
#include "gatherwright/formula.hpp"
#include "gatherwright/id.hpp"

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

/// What is cut: rectangles on the straight grain. Sizes are between seam lines.
namespace gatherwright {

inline constexpr std::array<Side, 4> all_sides{Side::top, Side::bottom, Side::left, Side::right};

/// Whether a side runs from selvedge to selvedge; the others run along the warp.
constexpr bool runs_across(Side side) {
  return side == Side::top || side == Side::bottom;
}

/// The side whose allowance lies before a side's start.
///   1. Sides that run across start at the left, and those that run along at the top.
constexpr Side side_before(Side side) {
  return runs_across(side) ? Side::left : Side::top;
}

/// A side as it lies once the piece is turned over left for right.
///   2. Turned over twice a side is itself.
constexpr Side turned_over(Side side) {
  if (side == Side::left) return Side::right;
  return side == Side::right ? Side::left : side;
}

/// A part of a join's edge, between two of its reference marks, that is sewn to a side. Mark 0 is the edge's start,
/// mark n the end of its n-th segment; the last is the edge's end, which in a closed join is the start again.
struct SidePart {
  JoinId join;
  WhichEdge edge = WhichEdge::long_edge;
  int from = 0;
  int to = 1;      ///< above `from`
  Formula at = {}; ///< where it begins: from the side's start, at the seam line
};

/// One value for each side.
template <class Value> struct BySide {
  std::array<Value, all_sides.size()> of_sides{};

  Value &operator[](Side side) { return of_sides[static_cast<std::size_t>(side)]; }
  const Value &operator[](Side side) const { return of_sides[static_cast<std::size_t>(side)]; }
};

struct Piece {
  std::string name;
  int cut = 1;                              ///< how many
  Formula across;                           ///< from selvedge to selvedge
  Formula along;                            ///< down the warp
  BySide<std::optional<Formula>> allowance; ///< left out: the job's
  bool mirrored = false;                    ///< left and right ones
  bool turn = false;                        ///< it may lie turned by a quarter
  Fabric fabric;                            ///< the job's with the piece's own over it
  BySide<std::vector<SidePart>> sides;      ///< what is sewn where; no edge of these is drawn
};

} // namespace gatherwright
