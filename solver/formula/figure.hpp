// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/formula.hpp"
#include "solver/formula/in_numbers.hpp"

#include <optional>
#include <span>

namespace gatherwright {

/// Whether it names any length or measure.
bool names_any(const Formula &formula);

/// What a formula that names nothing comes to, millimetres; 0 where it has no value.
double figure_of(const Formula &formula);

/// What evaluate() makes of a formula where every symbol has a number; nothing where that is a fault.
inline std::optional<double> value_of(const Formula &formula, std::span<const double> numbers) {
  return formula::in_numbers(
      formula.steps(), [numbers](int symbol) { return std::optional(numbers[static_cast<std::size_t>(symbol)]); });
}

} // namespace gatherwright
