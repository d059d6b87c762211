// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"

#include <vector>

namespace gatherwright::advice {

/// What of a job depends on a length.
struct Dependence {
  std::vector<int> joins; ///< ascending
  std::vector<int> rules; ///< ascending
};

/// For every length of the job in turn. Lengths that derive from it carry the dependence on; what a free length's range
/// is made of does not, since where the length lies within it is another matter.
std::vector<Dependence> dependences(const Job &job);

} // namespace gatherwright::advice
