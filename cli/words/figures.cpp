// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/figures.hpp"

#include <fmt/format.h>

#include <cmath>

namespace gatherwright::words {

namespace {

/// Beyond this a number of plain digits is no longer read at a glance.
constexpr double readable = 1e9;

bool too_large(double mm, const Tape &tape) {
  return !(std::fabs(mm) < readable * millimetres(tape.unit));
}

std::string in_powers_of_ten(double mm, const Tape &tape) {
  return fmt::format("{:.4g} {}", mm / millimetres(tape.unit), name(tape.unit));
}

template <class Write> Pair told_apart(double measured, double limit, int fewest, const Write &write) {
  constexpr int most_places = 9;
  for (int places = fewest;; ++places) {
    Pair pair{write(measured, places), write(limit, places)};
    if (pair.measured != pair.limit || measured == limit || places == most_places) return pair;
  }
}

} // namespace

std::string decimals(double value, int places) {
  if (!(std::fabs(value) < readable)) return fmt::format("{:.4g}", value);
  std::string text = fmt::format("{:.{}f}", value, places);
  const bool zero = text.find_first_of("123456789") == std::string::npos;
  return zero && text.front() == '-' ? text.substr(1) : text;
}

std::string trimmed(double value, int places) {
  std::string text = decimals(value, places);
  if (text.find('.') == std::string::npos || text.find('e') != std::string::npos) return text;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

std::string to_one(double fullness) {
  return decimals(fullness, 2) + " to 1";
}

std::string weight(double grams) {
  return trimmed(grams, 1) + " g/m2";
}

std::string small_length(double mm) {
  return trimmed(mm, mm < 1 ? 2 : 1) + " mm";
}

std::string place(double mm, const Tape &tape) {
  return too_large(mm, tape) ? in_powers_of_ten(mm, tape) : reading(Length{mm}, tape);
}

std::string length(double mm, const Tape &tape) {
  if (too_large(mm, tape)) return in_powers_of_ten(mm, tape);
  std::string text = named_reading(Length{mm}, tape);
  return text.front() == '~' ? "about " + text.substr(1) : text;
}

std::string nearest_length(double mm, const Tape &tape) {
  return length(std::round(mm / tape.step.mm) * tape.step.mm, tape);
}

// A value within a millionth of a step is on it, as everywhere on the tape.
std::string length_down(double mm, const Tape &tape) {
  return length(std::fmax(0, std::floor(mm / tape.step.mm + 1e-6)) * tape.step.mm, tape);
}

std::string length_up(double mm, const Tape &tape) {
  return length(std::ceil(mm / tape.step.mm - 1e-6) * tape.step.mm, tape);
}

Pair ratios(double measured, double limit) {
  return told_apart(measured, limit, 2, [](double value, int places) { return decimals(value, places); });
}

Pair ease_percents(double measured, double limit) {
  return told_apart(measured, limit, 0,
                    [](double value, int places) { return decimals(100 * (value - 1), places) + " %"; });
}

Pair lengths(double measured, double limit, const Tape &tape) {
  Pair read{length(measured, tape), length(limit, tape)};
  if (read.measured != read.limit || measured == limit) return read;
  return told_apart(measured, limit, 2, [&](double value, int places) {
    return fmt::format("{} {}", decimals(value / millimetres(tape.unit), places), name(tape.unit));
  });
}

} // namespace gatherwright::words
