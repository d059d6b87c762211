// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/cloths.hpp"

namespace gatherwright::words {

Cloth cloth_at(const Job &job, ClothId at) {
  return cloths_of(job).cloths.at(static_cast<std::size_t>(at.at));
}

std::string cloth_named(const Job &job, ClothId at) {
  const SharedText name = cloth_at(job, at).name;
  return std::string(name.empty() ? "the cloth" : std::string_view(name));
}

} // namespace gatherwright::words
