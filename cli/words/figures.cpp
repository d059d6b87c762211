// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/figures.hpp"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cmath>
#include <optional>

namespace gatherwright::words {

namespace {

/// Beyond this a number of plain digits is no longer read at a glance.
constexpr double readable = 1e9;

/// A fullness from here on is told in whole numbers.
constexpr double most_in_hundredths = 10;

bool too_large(double mm, const Tape &tape) {
  return !(std::fabs(mm) < readable * millimetres(tape.unit));
}

std::string in_powers_of_ten(double mm, const Tape &tape) {
  return fmt::format("{:.4g} {}", mm / millimetres(tape.unit), name(tape.unit));
}

/// With so many decimals more than at first they are told apart, if at all: a hundredth of the last figure shown.
constexpr int more_places = 2;

template <class Write> std::optional<Pair> told_apart(double measured, double limit, int fewest, const Write &write) {
  for (int places = fewest; places <= fewest + more_places; ++places) {
    Pair pair{write(measured, places), write(limit, places)};
    if (pair.measured != pair.limit) return pair;
  }
  return std::nullopt;
}

/// A limit holds within this share of itself: what is nearer is at it.
constexpr double limit_share = 1e-9;

Pair just_beside(double measured, double limit, double at, const std::string &written) {
  if (std::fabs(measured - limit) <= at) return {written, written};
  return {(measured > limit ? "just over " : "just under ") + written, written};
}

constexpr int length_places = 2;

std::string in_figures(double mm, int places, const Tape &tape) {
  return fmt::format("{} {}", trimmed(mm / millimetres(tape.unit), places), name(tape.unit));
}

constexpr std::string_view about = "about ";

std::string_view without_about(std::string_view read) {
  return read.starts_with(about) ? read.substr(about.size()) : read;
}

/// The limit as it is told beside a value that nobody could tell from it.
std::string limit_alone(double limit, const Tape &tape) {
  const std::string read = length(limit, tape);
  return read.starts_with(about) ? in_figures(limit, length_places + more_places, tape) : read;
}

std::optional<Pair> lengths_apart(double measured, double limit, const Tape &tape) {
  Pair read{length(measured, tape), length(limit, tape)};
  if (without_about(read.measured) != without_about(read.limit)) return read;
  return told_apart(measured, limit, length_places,
                    [&](double value, int places) { return in_figures(value, places, tape); });
}

} // namespace

std::string decimals(double value, int places) {
  if (!(std::fabs(value) < readable)) return fmt::format("{:.4g}", value);
  std::array<char, 64> figures; // up to ten before the point, and more behind it than are ever asked for
  const auto end = std::to_chars(figures.begin(), figures.end(), value, std::chars_format::fixed, places).ptr;
  std::string text(figures.begin(), end);
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

std::string ratio(double fullness) {
  return decimals(fullness, fullness < most_in_hundredths ? 2 : 0);
}

std::string to_one(double fullness) {
  return ratio(fullness) + " to 1";
}

std::string weight(double grams) {
  return trimmed(grams, 1) + " g/m2";
}

std::string small_length(double mm, Unit unit) {
  if (!is_imperial(unit)) return trimmed(mm, mm < 1 ? 2 : 1) + " mm";
  const double inches = mm / millimetres(Unit::in);
  const double step = inches < 0.125 ? 32 : 16;
  const double steps = std::round(inches * step);
  if (std::fabs(inches * step - steps) > 0.02 || steps == 0) return trimmed(inches, inches < 0.1 ? 3 : 2) + " in";
  return named_reading(Length{steps / step * millimetres(Unit::in)}, {Unit::in, Length{millimetres(Unit::in) / step}});
}

std::string height(double mm, Unit unit) {
  if (!is_imperial(unit)) return small_length(mm, unit);
  const Tape fine{Unit::in, Length{millimetres(Unit::in) / 32}};
  return mm < fine.step.mm / 2 ? "less than " + named_reading(fine.step, fine) : nearest_length(mm, fine);
}

std::string stitch(double mm, Unit unit) {
  if (!is_imperial(unit)) return small_length(mm, unit);
  const double to_the_inch = millimetres(Unit::in) / mm;
  if (to_the_inch > 4.5) return fmt::format("{} to the inch", trimmed(to_the_inch, 1));
  return small_length(mm, unit);
}

std::string place(double mm, const Tape &tape) {
  return too_large(mm, tape) ? in_powers_of_ten(mm, tape) : reading(Length{mm}, tape);
}

std::string length(double mm, const Tape &tape) {
  if (too_large(mm, tape)) return in_powers_of_ten(mm, tape);
  std::string text = named_reading(Length{mm}, tape);
  return text.front() == '~' ? std::string(about) + text.substr(1) : text;
}

// Half a step goes up, and so does what is half a step but for the rounding of what it was reckoned from: segments that
// are alike are then told alike.
std::string nearest_length(double mm, const Tape &tape) {
  constexpr double doubt = 1e-9; // in steps
  return length(std::floor(mm / tape.step.mm + 0.5 + doubt) * tape.step.mm, tape);
}

// A value within a millionth of a step is on it, as everywhere on the tape.
std::string fine_length(double mm, const Tape &tape) {
  const double ordinary = is_imperial(tape.unit) ? millimetres(Unit::in) / 16 : 1;
  return length(mm, {tape.unit, Length{std::fmin(ordinary, tape.step.mm)}});
}

std::string length_down(double mm, const Tape &tape) {
  return length(std::fmax(0, std::floor(mm / tape.step.mm + 1e-6)) * tape.step.mm, tape);
}

std::string length_up(double mm, const Tape &tape) {
  return length(std::ceil(mm / tape.step.mm - 1e-6) * tape.step.mm, tape);
}

Pair ratios(double measured, double limit) {
  const auto write = [](double value, int places) { return decimals(value, places); };
  const int fewest = std::fmin(measured, limit) < most_in_hundredths ? 2 : 0;
  return told_apart(measured, limit, fewest, write)
      .value_or(just_beside(measured, limit, limit_share * limit, write(limit, fewest)));
}

Pair ease_percents(double measured, double limit) {
  const auto write = [](double value, int places) { return decimals(100 * (value - 1), places) + " %"; };
  return told_apart(measured, limit, 0, write)
      .value_or(just_beside(measured, limit, limit_share * limit, write(limit, 0)));
}

Pair lengths(double measured, double limit, const Tape &tape) {
  return lengths_apart(measured, limit, tape).value_or(just_beside(measured, limit, 0, limit_alone(limit, tape)));
}

Pair sides_that_hold(double left, double right, const Tape &tape) {
  const std::string same = limit_alone(right, tape);
  return lengths_apart(left, right, tape).value_or(Pair{same, same});
}

std::string figure_between(double low, double high, const Tape &tape) {
  constexpr int most_places = 12; // more than a double of a length in any unit holds
  const double unit = millimetres(tape.unit);
  const double middle = (low + high) / 2 / unit;
  for (int places = 0;; ++places) {
    const double scale = std::pow(10.0, places);
    const double rounded = std::round(middle * scale) / scale;
    if ((rounded * unit >= low && rounded * unit <= high) || places == most_places)
      return fmt::format("{} {}", trimmed(rounded, places), name(tape.unit));
  }
}

} // namespace gatherwright::words
