// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"

#include <vector>

namespace gatherwright {

/// What `validate` finds of a job that is sound but for its measures, the wearer's age and what follows from them.
std::vector<PlacedFault> faults_of_measures(const Job &job);

} // namespace gatherwright
