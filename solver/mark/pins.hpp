// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"

#include <cstddef>
#include <optional>

namespace gatherwright::mark {

/// Most pins that are laid out; callers refuse a job far below this (see `pin_count`).
inline constexpr double pins_at_most = 1e6;

/// How many pins there are inside a segment, ends left out (it may be very large). flat: none; draw: at the quarters
/// whatever the rule; else
/// - parts n: i band / n for i = 1 ... n - 1;
/// - apart D: the least n with band / n <= D, raised to a power of two where `halves`;
/// - every D: D, 2 D, ... so that the last gap is at least D / 2 and less than 3 D / 2.
/// All along the band, within 1e-9 of it. D names nothing: see Settled. `band` > 0, parts >= 1, D > 0.
double pin_count(double band, Kind kind, const PinMarks &rule);

/// The pins themselves: none where `pin_count` passes `pins_at_most`.
class Pins {
public:
  Pins(double band, Kind kind, const PinMarks &rule);

  std::size_t size() const { return static_cast<std::size_t>(count_); }

  /// Place of one along the band from its start, millimetres, rising.
  double operator[](std::size_t pin) const {
    const auto nth = static_cast<double>(pin + 1);
    return step_ ? nth * *step_ : nth * band_ / (count_ + 1);
  }

private:
  double band_;
  double count_;
  std::optional<double> step_; ///< they stand so far apart, else at equal parts
};

/// Whether the band and the long edge, folded in half and in half again, come to lie fold on pin: pins in a power of
/// two of equal parts, and the fullness spread evenly. Nothing to find where there is no pin.
bool found_by_folding(double band, Kind kind, const PinMarks &rule, bool spread_evenly);

} // namespace gatherwright::mark
