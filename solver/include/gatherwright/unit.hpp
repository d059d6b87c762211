// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

/// The units of length in one table: whatever is true of a unit is asked here.
namespace gatherwright {

/// `nail` (2 1/4 in) and `ell` (English, 45 in) are the old cloth measures.
enum class Unit { mm, cm, m, in, ft, yd, nail, ell };

/// What is true of a unit.
struct UnitRow {
  std::string_view name;       ///< as it is written
  std::uint64_t numerator = 1; ///< millimetres in one, as a ratio
  std::uint64_t denominator = 1;
  bool imperial = false;                    ///< it is divided into halves, quarters, eighths; else into tenths
  bool of_a_job = true;                     ///< a job may be in it, and a tape be read in it
  std::optional<int> inches = std::nullopt; ///< that are strung to it, and told after it: 2 ft 3 1/2 in
};

///   1. The rows of the units stand in the order of the units.
///   2. A unit has as many millimetres as its definition says.
/// The international inch is 25.4 mm and the yard 0.9144 m (agreement of 1959); nail and ell as
/// The Workwoman's Guide (1838) counts them, 2 1/4 and 45 inches.
inline constexpr std::array<UnitRow, 8> units{{
    {.name = "mm"},
    {.name = "cm", .numerator = 10},
    {.name = "m", .numerator = 1000},
    {.name = "in", .numerator = 127, .denominator = 5, .imperial = true},
    {.name = "ft", .numerator = 1524, .denominator = 5, .imperial = true, .inches = 12},
    {.name = "yd", .numerator = 4572, .denominator = 5, .imperial = true, .inches = 36},
    {.name = "nail", .numerator = 1143, .denominator = 20, .imperial = true, .of_a_job = false},
    {.name = "ell", .numerator = 1143, .imperial = true, .of_a_job = false},
}};

inline constexpr std::array<Unit, 8> all_units{Unit::mm, Unit::cm, Unit::m,    Unit::in,
                                               Unit::ft, Unit::yd, Unit::nail, Unit::ell};

constexpr const UnitRow &row_of(Unit unit) {
  return units[static_cast<std::size_t>(unit)];
}

constexpr std::string_view name(Unit unit) {
  return row_of(unit).name;
}
constexpr bool is_imperial(Unit unit) {
  return row_of(unit).imperial;
}
constexpr bool may_be_of_a_job(Unit unit) {
  return row_of(unit).of_a_job;
}
constexpr std::optional<int> inches_strung_to(Unit unit) {
  return row_of(unit).inches;
}

/// Millimetres in one `unit`, exact.
constexpr double millimetres(Unit unit) {
  return static_cast<double>(row_of(unit).numerator) / static_cast<double>(row_of(unit).denominator);
}

} // namespace gatherwright
