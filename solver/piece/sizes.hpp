// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/cutting.hpp"
#include "solver/piece/sewn.hpp"

#include <optional>
#include <span>
#include <variant>
#include <vector>

/// Pieces, as their figures come to. Millimetres.
namespace gatherwright::piece {

struct Sizes {
  double across = 0; ///< between seam lines
  double along = 0;
  BySide<double> allowance;
  BySide<std::vector<double>> at; ///< where each part begins: from the side's start, at the seam line

  double cut_across() const { return across + allowance[Side::left] + allowance[Side::right]; }
  double cut_along() const { return along + allowance[Side::top] + allowance[Side::bottom]; }
  double length_of(Side side) const { return runs_across(side) ? across : along; }
};

/// What of the figures is no size of a piece, or no place on its side.
using Unsound = std::variant<refusal::NoSize, refusal::BeforeTheSide>;
std::vector<Unsound> unsound_in(PieceId piece, const Sizes &sizes);

/// Whether a piece does not go into the width of its cloth, nor turned where it may be.
std::optional<finding::TooWide> too_wide(const Job &job, PieceId piece, const Sizes &sizes);

/// What is wrong with a piece: it is wider than its cloth, or what is sewn to a side does not lie on it beside the
/// rest.
using Wrong = std::variant<finding::TooWide, finding::PastTheEnd, finding::Overlaps>;

/// First the piece, then its sides' parts in their order.
std::vector<Wrong> wrong_with(const Job &job, PieceId piece, const Sizes &sizes, std::span<const SewnJoin> joins);

} // namespace gatherwright::piece
