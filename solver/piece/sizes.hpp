// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"

#include <optional>
#include <span>
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
std::vector<Refusal> refusals_of(PieceId piece, const Sizes &sizes);

/// How long a part is, of joins that are planned.
double length_of(const SidePart &part, std::span<const JoinPlan> joins);

/// What is wrong with a piece: it is wider than its cloth, or what is sewn to a side does not lie on it beside the
/// rest. First the piece, then its sides' parts in their order.
std::vector<Finding> findings_of(const Job &job, PieceId piece, const Sizes &sizes, std::span<const JoinPlan> joins);

} // namespace gatherwright::piece
