// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"

#include <vector>

namespace gatherwright::cli {

/// What a job may ask for and this version does not compute: a fault for each place.
std::vector<PlacedFault> not_yet(const Job &job);

} // namespace gatherwright::cli
