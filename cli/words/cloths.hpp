// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/cloths.hpp"

#include <string>

/// The cloths of a job as findings name them. Apart from the other names, which the module that makes PDF takes over
/// without the solver.
namespace gatherwright::words {

/// The cloth that an id of the job counts to.
Cloth cloth_at(const Job &job, ClothId at);

/// The same as it is written, or "the cloth", so that it can stand as a field by itself.
std::string cloth_named(const Job &job, ClothId at);

} // namespace gatherwright::words
