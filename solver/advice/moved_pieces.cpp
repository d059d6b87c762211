// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/moved_pieces.hpp"

#include "solver/advice/nearest.hpp"
#include "solver/piece/layouts.hpp"

namespace gatherwright::advice {

MovedPieces::MovedPieces(const Job &job, const Plan &plan)
    : settled_(job), cloths_(cloths_of(job)), moved_(job, plan), planned_(pieces_of(plan).sizes) {}

std::optional<std::vector<WearersPieces::Size>> MovedPieces::sizes_at(const Dependence &on_it, double value) {
  moved_.move(on_it, value);
  std::vector<WearersPieces::Size> sizes = planned_;
  for (const int p : on_it.pieces) {
    const auto is = moved_.sizes(PieceId(p));
    if (!is) return std::nullopt;
    sizes[p] = piece::cut_sizes(settled_.job(), PieceId(p), *is);
  }
  return sizes;
}

MovedPieces::Ways MovedPieces::ways(const Dependence &on_it, ClothId cloth, double value) {
  const double step = settled_.job().tape_step.mm;
  const auto now = sizes_at(on_it, value);
  const auto longer = sizes_at(on_it, value + step);
  Ways ways;
  if (!now || !longer) return ways;
  for (const int p : on_it.pieces) {
    if (cloths_.of_piece[p] != cloth.at) continue;
    for (const double slope : {(*longer)[p].across - (*now)[p].across, (*longer)[p].along - (*now)[p].along}) {
      ways.grows = ways.grows || slope > on_step * step;
      ways.shrinks = ways.shrinks || slope < -on_step * step;
    }
  }
  return ways;
}

} // namespace gatherwright::advice
