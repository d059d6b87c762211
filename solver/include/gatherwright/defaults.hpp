// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"

/// What is taken where a job says nothing. Common practice, no source.
///   1. Defaults go by the tape of the job's unit.
///   2. A length is kept where its own formula names a measure.
namespace gatherwright {

/// The smallest division of a tape: 1 mm, or 1/8 in.
constexpr Length default_tape_step(Unit unit) {
  return is_imperial(unit) ? Length{25.4 / 8} : Length{1};
}

/// Pins no further apart than 6 cm, or 2 1/2 in, their count a power of two so that folding in halves finds them.
constexpr Length default_pins_apart(Unit unit) {
  return is_imperial(unit) ? Length{2.5 * 25.4} : Length{60};
}

inline PinMarks default_pin_marks(Unit unit) {
  return PinsApart{.most = default_pins_apart(unit)};
}

/// Cloth is sold by 10 cm, or by 1/8 yd.
constexpr Length default_sold_by(Unit unit) {
  return is_imperial(unit) ? Length{36 * 25.4 / 8} : Length{100};
}

/// A pair is mirrored, and so is every even number of pieces.
constexpr bool mirrored_by_default(int make) {
  return make % 2 == 0;
}

/// Such a length fits a body as it is: no other is proposed. `is` is its formula, of the job's symbols.
bool kept_by_default(const Job &job, const Formula &is);

} // namespace gatherwright
