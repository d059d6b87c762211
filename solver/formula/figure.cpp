// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/formula/figure.hpp"

#include "solver/formula/in_numbers.hpp"

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

std::optional<double> value_of(const Formula &formula, std::span<const double> numbers) {
  return formula::in_numbers(
      formula.steps(), [numbers](int symbol) { return std::optional(numbers[static_cast<std::size_t>(symbol)]); });
}

} // namespace gatherwright
