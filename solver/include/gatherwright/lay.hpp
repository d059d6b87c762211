// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"

#include <span>
#include <vector>

/// Many wearers' pieces laid together.
namespace gatherwright {

/// The pieces of one wearer as they are cut: as the job's pieces.
struct WearersPieces {
  struct Size {
    double across = 0; ///< cut size, millimetres
    double along = 0;
    bool too_wide = false; ///< left out
  };
  std::vector<Size> sizes;
};

/// Those of a plan; empty where its rules conflict.
WearersPieces pieces_of(const Plan &plan);

/// All wearers' pieces on one bolt of each cloth, in the order of `cloths_of`; no entry for a cloth of which nothing is
/// laid. Nothing where there are more pieces than `bounds::most_cut`.
///   1. One wearer's pieces laid by themselves are laid as in the plan.
std::optional<std::vector<ClothPlan>> lay_together(const Job &job, std::span<const WearersPieces> wearers);

} // namespace gatherwright
