// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"

#include <vector>

namespace gatherwright::mark {

/// Most pins that `pins` lays out; callers refuse a job far below this (see `pin_count`).
inline constexpr double pins_at_most = 1e6;

/// Places of the pin marks inside a segment, along its band from its start, ends left out, millimetres, rising.
/// flat: none; draw: at the quarters whatever the rule; else
/// - parts n: i band / n for i = 1 ... n - 1;
/// - apart D: the least n with band / n <= D, raised to a power of two where `halves`;
/// - every D: D, 2 D, ... so that the last gap is at least D / 2 and less than 3 D / 2.
/// All along the band, within 1e-9 of it. D names nothing: see Settled. `band` > 0, parts >= 1, D > 0; none where `pin_count` passes `pins_at_most`.
std::vector<double> pins(double band, Kind kind, const PinMarks &rule);

/// How many pins `pins` would place, without placing them (it may be very large).
double pin_count(double band, Kind kind, const PinMarks &rule);

/// Whether the band and the long edge, folded in half and in half again, come to lie fold on pin: pins in a power of
/// two of equal parts, and the fullness spread evenly. Nothing to find where there is no pin.
bool found_by_folding(double band, Kind kind, const PinMarks &rule, bool spread_evenly);

} // namespace gatherwright::mark
