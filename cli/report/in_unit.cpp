// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/in_unit.hpp"

#include <cmath>
#include <limits>

namespace gatherwright::report {

// Four units in the last place allow for the division and for sums before it.
double in_unit(double mm, Unit unit) {
  constexpr double places = 1e9;
  const double value = mm / millimetres(unit);
  const double decimal = std::round(value * places) / places;
  return std::fabs(decimal - value) <= 4 * std::numeric_limits<double>::epsilon() * std::fabs(value) ? decimal : value;
}

} // namespace gatherwright::report
