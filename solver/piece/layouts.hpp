// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/cutting.hpp"
#include "solver/layout/lay.hpp"
#include "solver/piece/sizes.hpp"

#include <span>
#include <vector>

namespace gatherwright::piece {

/// What came of laying pieces: the cloths that have a layout, and of the others why not.
struct Laid {
  std::vector<ClothPlan> cloth;
  std::vector<note::NotLaid> not_laid;
};

/// What is to be laid on a cloth, at the sizes at which the job's pieces are cut; without those that are too wide.
layout::Problem problem_of(const Job &job, const Cloths &cloths, ClothId at,
                           std::span<const WearersPieces::Size> sizes);

/// What laying one of so many cloths may take.
layout::Budget budget_of_one(std::size_t cloths);

/// The cut sizes of a piece.
WearersPieces::Size cut_sizes(const Job &job, PieceId piece, const Sizes &sizes);

/// Lays the pieces of one or more wearers, cloth by cloth; no more than `bounds::most_cut` in all.
Laid lay(const Job &job, std::span<const WearersPieces> wearers);

} // namespace gatherwright::piece
