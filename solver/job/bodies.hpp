// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string_view>

/// What bodies have: the least and the greatest of a survey, for telling a slip of the pen from a measure. Nothing is
/// reckoned with it.
///
/// Source: 2012 Anthropometric Survey of U.S. Army Personnel (ANSUR II), Natick/TR-15/007; 4082 men and 1986 women, as
/// in tests/data/ansur_percentiles.csv.
namespace gatherwright::bodies {

inline constexpr double youngest = 17; ///< years, of the people surveyed

/// Millimetres, of women and men together.
struct Surveyed {
  double least = 0;
  double greatest = 0;
};

/// What was surveyed of a measure that is called so ("neck", "upper_arm"); nothing where no such was.
std::optional<Surveyed> called(std::string_view name);

} // namespace gatherwright::bodies
