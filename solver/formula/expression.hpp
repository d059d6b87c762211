// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/formula.hpp"

namespace gatherwright::formula {

/// What a text may name, and the unit to offer for a number that has none.
struct Terms {
  Unit bare = Unit::cm;
  const NameIndex &find;
  std::span<const std::string> known;
};

/// As parse_formula, but a bare number by itself has no unit. The text must be UTF-8 without spaces round it.
Outcome<Formula> parse_expression(std::string_view text, const Terms &terms);

/// The fault of more than 1,000 brackets of one side, if there are so many; however long the text, the count ends
/// there.
std::optional<Fault> too_many_brackets(std::string_view text);

/// Whether a word has a meaning of its own in every formula: a unit, min, max or pi.
bool is_reserved(std::string_view word);

} // namespace gatherwright::formula
