// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/formula.hpp"

#include <span>
#include <utility>
#include <vector>

namespace gatherwright::formula {

/// As evaluate(), the terms put behind those that are there already; where it is a fault there may be anything.
Outcome<double> evaluate_onto(const Formula &formula, std::span<const Affine> values,
                              std::vector<std::pair<int, double>> &terms);

} // namespace gatherwright::formula
