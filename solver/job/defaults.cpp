// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/defaults.hpp"

#include <algorithm>

namespace gatherwright {

bool kept_by_default(const Job &job, const Formula &is) {
  const auto steps = is.steps();
  return std::any_of(steps.begin(), steps.end(), [&](const Formula::Step &step) {
    return step.code == Formula::Code::symbol && step.symbol < static_cast<int>(job.measures.size());
  });
}

} // namespace gatherwright
