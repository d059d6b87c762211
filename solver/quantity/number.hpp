// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/outcome.hpp"

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

/// Numbers as people write them, kept as exact ratios until they are rounded once.
namespace gatherwright::quantity {

/// A ratio of whole numbers, the denominator above 0.
struct Ratio {
  std::uint64_t numerator = 0;
  std::uint64_t denominator = 1;
};

/// A number that is not negative: in lowest terms, with the nearest double. A denominator of 0 says that the text had
/// more digits than a ratio of 64-bit numbers holds; the value is then rounded more than once, within a few units of
/// the last place.
struct Number {
  double value = 0;
  Ratio ratio;
};

Number exact(Ratio ratio);
Number sum(const Number &a, const Number &b);
Number product(const Number &a, Ratio by);

/// The shortest decimal that reads back as the same double, without an exponent. The value must be finite.
std::string decimal_text(double value);

/// "12", "12.5" or ".5" in digits and one point, nothing else; not above 1e9 (else what is returned is above 1e9 too).
Number decimal(std::string_view digits);

/// Nothing that is written may be above this: millimetres of a length, or a number by itself.
inline constexpr double largest = 1e9;

/// A number found in a text.
struct NumberText {
  Number number;
  std::size_t end = 0;
  bool whole = false; ///< digits alone: 24
  bool ratio = false; ///< one number over another and nothing before it: 3/4 (not the single character for it)
};

/// A number that is written as none may be. `right` is how to write it, empty where that cannot be told.
struct Miswritten {
  std::size_t end = 0; ///< of what was written so
  std::string reason;
  std::string right;
  std::string or_right; ///< where it may have meant two things
};

/// Where n/m may be a fraction, and where a comma between digits can only be a decimal comma.
struct NumberRules {
  bool fraction = true;
  bool decimal_comma = true;
};

/// Whether a number begins at `at`: a digit, a point with a digit behind it, or a vulgar fraction.
bool number_begins(std::string_view text, std::size_t at);

/// The number that begins at `at`: 24, 24.5, .5, 3/4, 24 3/4, 24¾; no sign, no exponent.
Outcome<NumberText, Miswritten> scan_number(std::string_view text, std::size_t at, NumberRules rules = {});

} // namespace gatherwright::quantity
