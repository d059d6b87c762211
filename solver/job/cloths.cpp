// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/cloths.hpp"

#include "gatherwright/defaults.hpp"

#include <algorithm>
#include <unordered_map>
#include <utility>

namespace gatherwright {

Cloth cloth_of(const Fabric &fabric, Unit unit) {
  return {.name = fabric.name,
          .width = fabric.width,
          .selvedge = fabric.selvedge.value_or(Length{0.0}),
          .shrinkage = fabric.shrinkage.value_or(Shrinkage{}),
          .sold_by = fabric.sold_by.value_or(default_sold_by(unit)),
          .stock = fabric.stock};
}

std::optional<double> usable(const Cloth &cloth) {
  if (!cloth.width) return std::nullopt;
  return cloth.width->mm * (1 - cloth.shrinkage.across) - 2 * cloth.selvedge.mm;
}

Cloths cloths_of(const Job &job) {
  Cloths found;
  std::unordered_multimap<SharedText, int> called; // with more than one of a name only where the job is at fault
  for (const Piece &piece : job.pieces) {
    Cloth cloth = cloth_of(piece.fabric, job.unit);
    const auto [first, last] = called.equal_range(piece.fabric.name);
    const auto same = std::find_if(first, last, [&](const auto &each) { return found.cloths[each.second] == cloth; });
    found.of_piece.push_back(same == last ? static_cast<int>(found.cloths.size()) : same->second);
    if (same != last) continue;
    called.emplace(piece.fabric.name, found.of_piece.back());
    found.cloths.push_back(std::move(cloth));
  }
  return found;
}

} // namespace gatherwright
