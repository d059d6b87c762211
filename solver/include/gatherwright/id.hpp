// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <compare>

/// What the things of a job are known by.
namespace gatherwright {

/// An index into one of a job's vectors, told apart from those into others.
///   1. An id is never taken for one of another thing, nor a number for an id.
template <class Thing> struct Id {
  explicit constexpr Id(int number) : at(number) {}

  int at; ///< from 0

  friend constexpr auto operator<=>(const Id &, const Id &) = default;
};

struct Cloth;
struct Join;
struct Measure;
struct NamedLength;
struct Piece;
struct Rule;

using JoinId = Id<Join>;
using MeasureId = Id<Measure>;
using LengthId = Id<NamedLength>;
using RuleId = Id<Rule>;
using PieceId = Id<Piece>;
using ClothId = Id<Cloth>; ///< of those that `cloths_of` finds in a job

/// The two edges of a join: the one that is worked in, and the one that it is sewn to.
enum class WhichEdge { long_edge, band };

/// A segment of a join.
struct SegmentAt {
  explicit constexpr SegmentAt(JoinId in, int number) : join(in), segment(number) {}

  JoinId join;
  int segment; ///< from 0

  friend constexpr auto operator<=>(const SegmentAt &, const SegmentAt &) = default;
};

/// An edge of a join.
struct EdgeAt {
  explicit constexpr EdgeAt(JoinId in, WhichEdge which) : join(in), edge(which) {}

  JoinId join;
  WhichEdge edge;

  friend constexpr auto operator<=>(const EdgeAt &, const EdgeAt &) = default;
};

/// The sides of a piece as it lies face up on the table, the warp running away from the maker: `top` and `bottom` run
/// across, `left` and `right` along the warp. A side starts at its left end, or at its top end.
enum class Side { top, bottom, left, right };

/// A side of a piece.
struct SideAt {
  explicit constexpr SideAt(PieceId of, Side which) : piece(of), side(which) {}

  PieceId piece;
  Side side;

  friend constexpr auto operator<=>(const SideAt &, const SideAt &) = default;
};

/// A part of a side: what one join is sewn to.
struct PartAt {
  explicit constexpr PartAt(SideAt of, int number) : side(of), part(number) {}

  SideAt side;
  int part; ///< from 0

  friend constexpr auto operator<=>(const PartAt &, const PartAt &) = default;
};

} // namespace gatherwright
