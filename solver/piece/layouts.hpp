// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/cutting.hpp"

#include <span>
#include <vector>

namespace gatherwright::piece {

/// What came of laying pieces: the cloths that have a layout, and of the others why not.
struct Laid {
  std::vector<ClothPlan> cloth;
  std::vector<note::NotLaid> not_laid;
};

/// Lays the pieces of one or more wearers, cloth by cloth; no more than `bounds::most_cut` in all.
Laid lay(const Job &job, std::span<const WearersPieces> wearers);

} // namespace gatherwright::piece
