// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/plan.hpp"

namespace gatherwright {

WearersPieces pieces_of(const Plan &plan) {
  WearersPieces pieces;
  for (const PiecePlan &piece : plan.pieces)
    pieces.sizes.push_back({piece.cut_across.exact, piece.cut_along.exact, piece.too_wide});
  return pieces;
}

} // namespace gatherwright
