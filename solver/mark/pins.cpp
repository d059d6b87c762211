// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/mark/pins.hpp"

#include "solver/formula/figure.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright::mark {

namespace {

// Places along the band are told apart to this part of it: 18.9 cm / 6.3 cm is three parts, though not in doubles.
constexpr double along_band = 1e-9;

double raised_to_power_of_two(double count) {
  if (std::isinf(count)) return count;
  int exponent = 0;
  const double fraction = std::frexp(count, &exponent); // count = fraction 2^exponent, 1/2 <= fraction < 1
  return fraction == 0.5 ? count : std::ldexp(1.0, exponent);
}

/// The number of equal parts the pins divide the band into; 1 is no pin.
double equal_parts(double band, Kind kind, const PinMarks &rule) {
  if (on_cord(kind)) return 4;
  if (const auto *by_count = std::get_if<PinsAtParts>(&rule)) return std::max(by_count->parts, 1);
  const auto &apart = std::get<PinsApart>(rule);
  const double least = std::max(1.0, std::ceil(band / figure_of(apart.most) / (1 + along_band)));
  return apart.halves ? raised_to_power_of_two(least) : least;
}

/// The distance that pins stand at, where it is fixed: a cord's stand at the quarters whatever the rule.
std::optional<double> fixed_step(Kind kind, const PinMarks &rule) {
  const auto *every = std::get_if<PinsEvery>(&rule);
  return every && !on_cord(kind) ? std::optional(figure_of(every->distance)) : std::nullopt;
}

double count_every(double band, double distance) {
  const double steps = band / distance;
  return std::max(0.0, std::floor(steps * (1 + along_band) - 0.5));
}

} // namespace

double pin_count(double band, Kind kind, const PinMarks &rule) {
  if (!takes_fullness(kind)) return 0;
  const std::optional<double> step = fixed_step(kind, rule);
  return step ? count_every(band, *step) : equal_parts(band, kind, rule) - 1;
}

Pins::Pins(double band, Kind kind, const PinMarks &rule)
    : band_(band), count_(pin_count(band, kind, rule)), step_(fixed_step(kind, rule)) {
  if (!(count_ >= 1 && count_ <= pins_at_most)) count_ = 0;
}

bool found_by_folding(double band, Kind kind, const PinMarks &rule, bool spread_evenly) {
  if (!spread_evenly || !takes_fullness(kind) || fixed_step(kind, rule)) return false;
  const double parts = equal_parts(band, kind, rule);
  return parts > 1 && parts == raised_to_power_of_two(parts);
}

} // namespace gatherwright::mark
