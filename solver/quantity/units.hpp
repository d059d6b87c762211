// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/quantity.hpp"
#include "solver/quantity/number.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace gatherwright::quantity {

/// Millimetres in one unit, as a ratio.
Ratio exact_millimetres(Unit unit);

/// "mm, cm, m, in, ft, yd, nail or ell".
std::string unit_list();

/// The unit that was most likely meant by a word that is no unit's name.
std::optional<Unit> unit_meant(std::string_view word);

} // namespace gatherwright::quantity
