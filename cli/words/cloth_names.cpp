// SPDX-License-Identifier: GPL-3.0-or-later
// Apart from the other names, which are also built into the module that makes PDF: that has no part of the solver.
#include "cli/words/names.hpp"

namespace gatherwright::words {

Cloth cloth_at(const Job &job, ClothId at) {
  return cloths_of(job).cloths.at(static_cast<std::size_t>(at.at));
}

std::string cloth_named(const Job &job, ClothId at) {
  std::string name = cloth_at(job, at).name;
  return name.empty() ? "the cloth" : name;
}

} // namespace gatherwright::words
