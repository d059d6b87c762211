// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/quantity/units.hpp"

#include "gatherwright/nearest.hpp"

#include <algorithm>
#include <array>
#include <vector>

namespace gatherwright {
namespace {

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

std::optional<Unit> unit_named(std::string_view text) {
  const auto *found =
      std::find_if(all_units.begin(), all_units.end(), [text](Unit unit) { return name(unit) == text; });
  return found == all_units.end() ? std::nullopt : std::optional(*found);
}

std::optional<Unit> unit_misnamed(std::string_view word) {
  if (word.size() > 16) return std::nullopt;
  const std::string folded = lower(word);
  const auto *found = std::find_if(misnomers.begin(), misnomers.end(),
                                   [&](const Misnomer &misnomer) { return misnomer.word == folded; });
  if (found == misnomers.end()) return std::nullopt;
  return found->unit;
}

namespace quantity {

Ratio exact_millimetres(Unit unit) {
  return {row_of(unit).numerator, row_of(unit).denominator};
}

std::string unit_list() {
  std::string list;
  for (const UnitRow &unit : units) {
    if (!list.empty()) list += &unit == &units.back() ? " or " : ", ";
    list += unit.name;
  }
  return list;
}

std::optional<Unit> unit_meant(std::string_view word) {
  if (const auto unit = unit_misnamed(word)) return unit;
  if (std::find(no_units_here.begin(), no_units_here.end(), word) != no_units_here.end()) return std::nullopt;
  std::vector<std::string> words;
  words.reserve(units.size() + misnomers.size());
  for (const UnitRow &unit : units)
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
