// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/outcome.hpp"
#include "gatherwright/unit.hpp"

#include <compare>
#include <optional>
#include <string>
#include <string_view>

namespace gatherwright {

/// A length of cloth or of a body. Holds millimetres; the inch is 25.4 mm exactly.
struct Length {
  double mm = 0;

  friend auto operator<=>(const Length &, const Length &) = default;
};

/// Mass per area, in grams per square metre.
struct Weight {
  double grams = 0;

  friend auto operator<=>(const Weight &, const Weight &) = default;
};

/// The unit so named, nothing if there is none (plurals and long names are not names of units).
std::optional<Unit> unit_named(std::string_view text);

/// The unit that a word other than its name is known to stand for: "inches", "cms", "Yards".
std::optional<Unit> unit_misnamed(std::string_view word);

/// A bare number in `unit` as a length: the shortest decimal that stands for it, read exactly and rounded once, so that
/// 0.57 in metres is what "0.57 m" is. Negative, not finite or above 1000 km: a fault.
///   1. A number and the same figures as text are one length.
Outcome<Length> length_of(double number, Unit unit);

/// One quantity of length: "62 cm", "24 3/4 in", "24¾ in", "1 yd 4 1/2 in", "5' 10 1/2\"", or a number
/// alone, which is in `bare`. (A number of more than 19 figures may be off by a few units of the last place.)
///   2. Lengths come out as the nearest double to what is written.
///   3. What is nearly a length is refused with how to write it.
/// Faults: an unknown or misspelt unit, a decimal comma, "24-3/4", a negative length, one above 1000 km, trailing text,
/// text that is not UTF-8.
Outcome<Length> read_length(std::string_view text, Unit bare);

/// Mass per area: "150 g/m2", "g/m²", "gsm", "4.4 oz/yd2", "oz/yd²" (ounce 28.349523125 g, yard 0.9144 m).
/// A bare number or a bare "oz" is a fault with a hint; so is 0 or less.
///   4. Cloth is weighed in grams to the square metre or ounces to the square yard.
///   5. A weight that is none is refused with how to write it.
Outcome<Weight> read_weight(std::string_view text);

/// Something counted along a length, "8 / in" or "3 / cm": how many to a millimetre. Above 0.
///   6. A count is so many to a length.
Outcome<double> read_count(std::string_view text);

/// A tape: the unit it is read in and the smallest division marked on it.
struct Tape {
  Unit unit = Unit::cm;
  Length step{1.0};
};

/// How a place is read off the tape to the nearest step, without the unit where it has only one:
/// "4.6" in mm, cm and m; "24 3/4" in inches; "2 ft 3 1/2 in"; "1 yd 4 1/2 in" with parts of 0 left out; 0 is "0".
/// With "~" before it where the place is off the tape by more than 1e-6 of a step; halfway between two steps the lower
/// is read. A step that is no binary fraction of an inch is read in decimals ("24.7" at 0.1 in), or in the fraction it
/// is of (1/3 in); what has neither, to a tenth of the step. The place must be finite and the step above 0; a place of
/// more steps than can be counted is written as a decimal.
///   7. A place is read off the tape as a person reads it.
///   8. A place off the tape is read to the nearest step and says so.
std::string reading(Length place, const Tape &tape);

/// A length with its unit: "4.6 cm", "24 3/4 in", "1 yd 4 1/2 in", "0 cm".
///   9. What a tape says is read back as the same length.
std::string named_reading(Length length, const Tape &tape);

} // namespace gatherwright
