// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"
#include "solver/advice/line.hpp"

#include <optional>
#include <vector>

namespace gatherwright::advice {

/// How long a part of a side is, beside what the segments of its join are given.
struct PartShare {
  bool is_chosen = false; ///< by the solver, in no proportion to anything
  double of_rest = 0;     ///< the part of what the given segments leave of the edge, otherwise
};
PartShare share_of(const Join &join, const SidePart &part);

/// A segment's length on an edge as it is given: its own, or of a flat one that on the other edge; nothing where it is
/// to be found.
inline const std::optional<Formula> &given_on(const Segment &segment, WhichEdge edge) {
  const auto &own = edge == WhichEdge::band ? segment.band : segment.long_edge;
  const auto &other = edge == WhichEdge::band ? segment.long_edge : segment.band;
  return own || takes_fullness(segment.kind) ? own : other;
}

/// Whether the rooms of what a piece hangs on are to be tried, since the solver chooses how long some part is.
bool has_part_chosen(const Job &job, PieceId piece);

/// A piece's figures as functions of one length. A part of which the solver chooses how long it is counts as what its
/// segments are given: it is no less.
struct PieceLines {
  Line across;
  Line along;
  BySide<Line> allowance;
  BySide<std::vector<Line>> at;
  BySide<std::vector<Line>> parts;
};

/// Cuts `reach` down to where the piece has a size, goes into its cloth, and what is sewn to its sides lies on them in
/// the order in which it lies as planned.
void keep_piece(Reach &reach, const Job &job, PieceId piece, const PieceLines &lines);

} // namespace gatherwright::advice
