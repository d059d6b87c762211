// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/formula.hpp"

namespace gatherwright {

/// Whether it names any length or measure.
bool names_any(const Formula &formula);

/// What a formula that names nothing comes to, millimetres; 0 where it has no value.
double figure_of(const Formula &formula);

} // namespace gatherwright
