// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/quantity/units.hpp"

#include "gatherwright/nearest.hpp"

#include <algorithm>
#include <array>
#include <vector>

namespace gatherwright {
namespace {

struct UnitRow {
  Unit unit;
  std::string_view name;
  quantity::Ratio millimetres;
};

// The international inch is 25.4 mm and the yard 0.9144 m (agreement of 1959); nail and ell as The Workwoman's Guide
// (1838) counts them, 2 1/4 and 45 inches.
constexpr std::array<UnitRow, 8> unit_rows{{{Unit::mm, "mm", {1, 1}},
                                            {Unit::cm, "cm", {10, 1}},
                                            {Unit::m, "m", {1000, 1}},
                                            {Unit::in, "in", {127, 5}},
                                            {Unit::ft, "ft", {1524, 5}},
                                            {Unit::yd, "yd", {4572, 5}},
                                            {Unit::nail, "nail", {1143, 20}},
                                            {Unit::ell, "ell", {1143, 1}}}};

const UnitRow &row(Unit unit) {
  return unit_rows[static_cast<std::size_t>(unit)];
}

struct Misnomer {
  std::string_view word;
  Unit unit;
};

constexpr std::array<Misnomer, 40> misnomers{{{"millimetre", Unit::mm},
                                              {"millimetres", Unit::mm},
                                              {"millimeter", Unit::mm},
                                              {"millimeters", Unit::mm},
                                              {"mms", Unit::mm},
                                              {"centimetre", Unit::cm},
                                              {"centimetres", Unit::cm},
                                              {"centimeter", Unit::cm},
                                              {"centimeters", Unit::cm},
                                              {"cms", Unit::cm},
                                              {"metre", Unit::m},
                                              {"metres", Unit::m},
                                              {"meter", Unit::m},
                                              {"meters", Unit::m},
                                              {"mtr", Unit::m},
                                              {"mtrs", Unit::m},
                                              {"ms", Unit::m},
                                              {"inch", Unit::in},
                                              {"inches", Unit::in},
                                              {"inchs", Unit::in},
                                              {"ins", Unit::in},
                                              {"foot", Unit::ft},
                                              {"feet", Unit::ft},
                                              {"foots", Unit::ft},
                                              {"feets", Unit::ft},
                                              {"fts", Unit::ft},
                                              {"yard", Unit::yd},
                                              {"yards", Unit::yd},
                                              {"yds", Unit::yd},
                                              {"nails", Unit::nail},
                                              {"nls", Unit::nail},
                                              {"ells", Unit::ell},
                                              {"mm", Unit::mm},
                                              {"cm", Unit::cm},
                                              {"m", Unit::m},
                                              {"in", Unit::in},
                                              {"ft", Unit::ft},
                                              {"yd", Unit::yd},
                                              {"nail", Unit::nail},
                                              {"ell", Unit::ell}}};

// Units of other things, or of lengths no one sews: to offer the nearest name for them would be wrong by a factor.
constexpr std::array<std::string_view, 11> no_units_here{"km", "dm", "hm", "um",  "nm", "pt",
                                                         "px", "em", "g",  "gsm", "oz"};

std::string lower(std::string_view word) {
  std::string folded(word);
  for (char &letter : folded)
    if (letter >= 'A' && letter <= 'Z') letter = static_cast<char>(letter - 'A' + 'a');
  return folded;
}

} // namespace

double millimetres(Unit unit) {
  const quantity::Ratio ratio = row(unit).millimetres;
  return static_cast<double>(ratio.numerator) / static_cast<double>(ratio.denominator);
}

std::string_view name(Unit unit) {
  return row(unit).name;
}

std::optional<Unit> unit_named(std::string_view text) {
  const auto *found =
      std::find_if(unit_rows.begin(), unit_rows.end(), [text](const UnitRow &unit) { return unit.name == text; });
  if (found == unit_rows.end()) return std::nullopt;
  return found->unit;
}

namespace quantity {

Ratio exact_millimetres(Unit unit) {
  return row(unit).millimetres;
}

std::string unit_list() {
  std::string list;
  for (const UnitRow &unit : unit_rows) {
    if (!list.empty()) list += &unit == &unit_rows.back() ? " or " : ", ";
    list += unit.name;
  }
  return list;
}

std::optional<Unit> unit_misnamed(std::string_view word) {
  if (word.size() > 16) return std::nullopt;
  const std::string folded = lower(word);
  const auto *found = std::find_if(misnomers.begin(), misnomers.end(),
                                   [&](const Misnomer &misnomer) { return misnomer.word == folded; });
  if (found == misnomers.end()) return std::nullopt;
  return found->unit;
}

std::optional<Unit> unit_meant(std::string_view word) {
  if (const auto unit = unit_misnamed(word)) return unit;
  if (std::find(no_units_here.begin(), no_units_here.end(), word) != no_units_here.end()) return std::nullopt;
  std::vector<std::string> words;
  words.reserve(unit_rows.size() + misnomers.size());
  for (const UnitRow &unit : unit_rows)
    words.emplace_back(unit.name);
  for (const Misnomer &misnomer : misnomers)
    words.emplace_back(misnomer.word);
  const auto found = nearest(word, words);
  if (!found) return std::nullopt;
  if (const auto unit = unit_named(*found)) return unit;
  return unit_misnamed(*found);
}

} // namespace quantity
} // namespace gatherwright
