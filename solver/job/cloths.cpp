// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/cloths.hpp"

#include "gatherwright/defaults.hpp"

#include <algorithm>

namespace gatherwright {

Cloth cloth_of(const Fabric &fabric, Unit unit) {
  return {.name = fabric.name,
          .width = fabric.width,
          .selvedge = fabric.selvedge.value_or(Length{0.0}),
          .shrinkage = fabric.shrinkage.value_or(Shrinkage{}),
          .sold_by = fabric.sold_by.value_or(default_sold_by(unit))};
}

std::optional<double> usable(const Cloth &cloth) {
  if (!cloth.width) return std::nullopt;
  return cloth.width->mm * (1 - cloth.shrinkage.across) - 2 * cloth.selvedge.mm;
}

Cloths cloths_of(const Job &job) {
  Cloths found;
  for (const Piece &piece : job.pieces) {
    Cloth cloth = cloth_of(piece.fabric, job.unit);
    const auto same = std::find(found.cloths.begin(), found.cloths.end(), cloth);
    found.of_piece.push_back(static_cast<int>(same - found.cloths.begin()));
    if (same == found.cloths.end()) found.cloths.push_back(std::move(cloth));
  }
  return found;
}

} // namespace gatherwright
