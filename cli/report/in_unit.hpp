// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/unit.hpp"

namespace gatherwright::report {

/// Millimetres in a unit. A quotient within rounding of a decimal of nine places is that decimal, so that what is 22 cm
/// does not print as 22.000000000000004.
double in_unit(double mm, Unit unit);

} // namespace gatherwright::report
