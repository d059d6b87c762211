// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/mark.hpp"
#include "gatherwright/piece.hpp"

#include <span>
#include <vector>

namespace gatherwright::piece {

/// A planned join, as far as pieces have its edges on their sides. Millimetres.
struct SewnJoin {
  std::vector<double> long_ends; ///< of the long edge's segments from its start, which is the first: one more than they
  std::vector<double> band_ends; ///< likewise of the band's
  std::span<const Mark> marks;

  const std::vector<double> &ends(WhichEdge edge) const { return edge == WhichEdge::band ? band_ends : long_ends; }
};

/// How long a part is.
inline double length_of(const SidePart &part, std::span<const SewnJoin> joins) {
  const std::vector<double> &ends = joins[part.join.at].ends(part.edge);
  return ends[part.to] - ends[part.from];
}

} // namespace gatherwright::piece
