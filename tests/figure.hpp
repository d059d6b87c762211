// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/formula.hpp"

#include <array>

namespace gatherwright::tests {

/// What a formula of no names comes to.
inline Length figure(const Formula &formula) {
  const auto value = evaluate(formula, {});
  return {value->constant};
}

inline std::array<Length, 2> figures(const std::array<Formula, 2> &formulas) {
  return {figure(formulas[0]), figure(formulas[1])};
}

} // namespace gatherwright::tests
