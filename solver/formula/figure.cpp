// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/formula/figure.hpp"

#include <algorithm>

namespace gatherwright {

bool names_any(const Formula &formula) {
  const auto steps = formula.steps();
  return std::any_of(steps.begin(), steps.end(),
                     [](const Formula::Step &step) { return step.code == Formula::Code::symbol; });
}

double figure_of(const Formula &formula) {
  const auto steps = formula.steps();
  if (steps.size() == 1 && steps.front().code == Formula::Code::length) return steps.front().value;
  if (names_any(formula)) return 0;
  return value_of(formula, {}).value_or(0);
}

} // namespace gatherwright
