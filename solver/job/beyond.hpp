// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace gatherwright {

/// What passes a limit by no more than this share of it keeps it: that is more than rounding leaves of a solved length,
/// and less than anyone cuts or counts.
inline constexpr double limit_share = 1e-9;

constexpr bool is_above(double value, double limit) {
  return value > limit * (1 + limit_share);
}

constexpr bool is_below(double value, double limit) {
  return value < limit * (1 - limit_share);
}

} // namespace gatherwright
