// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/quantity.hpp"

#include "solver/quantity/number.hpp"

#include <cmath>
#include <cstdint>
#include <numeric>

namespace gatherwright {
namespace {

// A place is on the tape within this part of a step: far above what sums of doubles leave behind, far below what shows.
constexpr double on_tape = 1e-6;

// The relative error within which a step counts as a whole number of the parts it is written in. A step is one rounded
// double over another (1e-16); steps that are not of the kind differ from it in the first figures.
constexpr double same_step = 1e-9;

constexpr std::int64_t finest_binary = 1024;
constexpr std::int64_t finest_fraction = 64;
constexpr int most_decimals = 6;

// Counts of parts stay far within 64 bits.
constexpr double most_parts = 1e15;

// How figures are written on a tape: in parts, so many to the unit, as a fraction or as decimals.
struct Graduation {
  std::int64_t parts = 1;
  int decimals = -1; ///< -1: a fraction
};

bool whole(double value) {
  const double nearest = std::round(value);
  return nearest >= 1 && std::abs(value - nearest) <= same_step * nearest;
}

std::int64_t power_of_ten(int exponent) {
  std::int64_t power = 1;
  for (int k = 0; k < exponent; ++k)
    power *= 10;
  return power;
}

// `step` is in the unit. Inch tapes are divided in halves; a step that is no such part is written in decimals, or in
// the fraction it is of; one that is neither is read to a tenth of it, so that neighbouring steps still differ.
Graduation graduation(double step, bool fractions) {
  if (fractions)
    for (std::int64_t parts = 1; parts <= finest_binary; parts *= 2)
      if (whole(step * static_cast<double>(parts))) return {parts, -1};
  for (int decimals = 0; decimals <= most_decimals; ++decimals)
    if (whole(step * static_cast<double>(power_of_ten(decimals)))) return {power_of_ten(decimals), decimals};
  if (fractions)
    for (std::int64_t parts = 3; parts <= finest_fraction; ++parts)
      if (whole(step * static_cast<double>(parts))) return {parts, -1};
  int decimals = 0;
  while (decimals < 12 && static_cast<double>(power_of_ten(decimals)) * step < 10)
    ++decimals;
  return {power_of_ten(decimals), decimals};
}

std::string figures(std::int64_t count, const Graduation &graduation) {
  const std::int64_t units = count / graduation.parts;
  std::int64_t rest = count % graduation.parts;
  if (rest == 0) return std::to_string(units);
  if (graduation.decimals >= 0) {
    std::string text = std::to_string(units) + '.';
    for (std::int64_t place = graduation.parts; rest > 0; rest %= place) {
      place /= 10;
      text += static_cast<char>('0' + rest / place);
    }
    return text;
  }
  const std::int64_t common = std::gcd(rest, graduation.parts);
  const std::string fraction = std::to_string(rest / common) + '/' + std::to_string(graduation.parts / common);
  return units == 0 ? fraction : std::to_string(units) + ' ' + fraction;
}

// Inches gathered into feet or yards; parts of 0 are left out.
std::string strung(std::int64_t count, const Graduation &graduation, Unit large) {
  const std::int64_t inches = *inches_strung_to(large);
  const std::int64_t larges = count / (inches * graduation.parts);
  const std::int64_t rest = count % (inches * graduation.parts);
  std::string text;
  if (larges > 0) text = std::to_string(larges) + ' ' + std::string(name(large));
  if (rest == 0) return text;
  if (!text.empty()) text += ' ';
  return text + figures(rest, graduation) + " in";
}

std::string read_off(double mm, const Tape &tape, bool named) {
  const bool strings = inches_strung_to(tape.unit).has_value();
  const double unit = millimetres(strings ? Unit::in : tape.unit);
  const std::string unit_text = named ? ' ' + std::string(name(tape.unit)) : "";
  const double steps = std::abs(mm) / tape.step.mm;
  const Graduation marks = graduation(tape.step.mm / unit, is_imperial(tape.unit));
  const double step_parts = tape.step.mm / unit * static_cast<double>(marks.parts);
  if (!std::isfinite(mm)) return "";
  if (!(std::max(steps, 1.0) * std::max(step_parts, 1.0) < most_parts))
    return quantity::decimal_text(mm / millimetres(tape.unit)) + unit_text;
  const double count = std::ceil(steps - 0.5); // the lower of two that are as near
  const bool exact = whole(step_parts);
  const auto parts = exact ? std::llround(count) * std::llround(step_parts) : std::llround(count * step_parts);
  std::string text = std::abs(steps - count) > on_tape ? "~" : "";
  if (parts == 0) return text + '0' + unit_text;
  if (mm < 0) text += '-';
  if (strings) return text + strung(parts, marks, tape.unit);
  return text + figures(parts, marks) + unit_text;
}

} // namespace

std::string reading(Length place, const Tape &tape) {
  return read_off(place.mm, tape, false);
}

std::string named_reading(Length length, const Tape &tape) {
  return read_off(length.mm, tape, true);
}

} // namespace gatherwright
