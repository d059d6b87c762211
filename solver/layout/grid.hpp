// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/layout.hpp"
#include "solver/layout/problem.hpp"
#include "solver/layout/strip.hpp"

#include <cstddef>
#include <vector>

namespace gatherwright::layout {

/// A problem in whole numbers.
///
/// Where all sizes are multiples of one length, within the rounding of arithmetic, that length is the unit, and sums
/// are what they would be on paper: three times 13 7/16 in fit 40 5/16 in. Where there is none, the unit is so fine
/// that all roundings of a sum together stay within `rounding` of the strip's width; a sum that passes the width by
/// less counts as the width. Sizes across and along have units of their own, unless something may turn.
///
/// Only sizes too far apart for that (a strip of a millimetre, a thousand kilometres along it, and rectangles that may
/// turn) leave no unit for both ways: then nothing turns, and no bound is proved on the grid.
struct Grid {
  Unit across;
  Unit along;
  Strip strip;
  Ticks sliver_across = 0; ///< what is left beside or behind a rectangle is no scrap up to here, but rounding
  Ticks sliver_along = 0;
  bool held = false; ///< something may turn, but does not on the grid
  struct Source {
    std::size_t kind = 0; ///< of the strip
    bool turned = false;  ///< the kind is the rectangle turned
  };
  std::vector<Source> source; ///< of each rectangle of the problem
};

/// The problem has no misfit.
Grid on_grid(const Problem &problem);

} // namespace gatherwright::layout
