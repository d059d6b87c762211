// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/quantity.hpp"
#include "solver/quantity/number.hpp"

#include <cstddef>
#include <functional>
#include <optional>
#include <string_view>

/// Lengths as they stand in a text: a number and its unit, or yards, feet and inches strung together.
namespace gatherwright::quantity {

/// A length found in a text, or a number with no unit.
struct LengthText {
  Number number; ///< millimetres where there is a unit
  bool has_unit = false;
  bool whole = false; ///< digits alone, no unit
  std::size_t end = 0;
};

/// What stands round the length.
struct LengthRules {
  bool in_formula = false;                       ///< n/m is a fraction only where a unit follows it
  bool after_division = false;                   ///< n/m is no fraction
  bool comma_separates = false;                  ///< a comma between digits parts the arguments of a function
  std::function<bool(std::string_view)> is_name; ///< words that may follow a number and are no misspelt unit
};

/// The length that begins at `at`, where `number_begins`. The faults quote what is miswritten and say how to write it.
Outcome<LengthText> scan_length(std::string_view text, std::size_t at, const LengthRules &rules = {});

/// A whole number, a dash and a fraction that begin at `at`, with no spaces between and maybe a unit behind: "24-3/4
/// in". As an expression it could be understood, but hardly ever is meant so.
struct Hyphenated {
  Fault fault;
  bool has_unit = false;
  std::size_t end = 0;
};
std::optional<Hyphenated> hyphenated(std::string_view text, std::size_t at);

/// The fault of a text that is a dash and a length ("-5 cm"); nothing where it is anything else.
std::optional<Fault> negative(std::string_view text, Unit bare);

/// What a number that is not written as it may be comes to as a fault: `text` is what is quoted, `tail` follows the
/// right number.
Fault told(const Miswritten &number, std::string_view text, std::string_view tail);

inline constexpr std::string_view not_text = "this is not UTF-8 text";
inline constexpr std::string_view save_as_text = "save the file as UTF-8";

} // namespace gatherwright::quantity
