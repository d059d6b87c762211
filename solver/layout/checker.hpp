// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/layout.hpp"
#include "solver/layout/problem.hpp"

#include <cstddef>
#include <optional>

namespace gatherwright::layout {

/// What is wrong with a layout.
struct Flaw {
  enum class What {
    missing,     ///< a copy of a rectangle has no place, or more than one (index: of the rectangle)
    turned,      ///< though it may not (index: of the placement, as in what follows)
    outside,     ///< it lies beyond the strip or the layout's length
    overlaps,    ///< another
    cut,         ///< runs not straight through one part, or not within it (index: of the cut)
    not_cut_out, ///< no part that the cuts leave is this rectangle (index: of the placement)
    length,      ///< is no number
    bound,       ///< is above the length, or `shortest` does not say whether it is the length
    certificate, ///< does not prove what it says
  };
  What what = What::missing;
  std::size_t index = 0;
};

/// Checks a layout against its problem, which has no misfit. Searches nothing and shares no code with the search but
/// the problem's and the layout's own types: makes the cuts, one after another, and multiplies out the certificate. The
/// bound beyond what is certified is not checked. Distances across may be off by `rounding` of the strip's
/// width, those along by as much of the greater of that and the layout's length.
std::optional<Flaw> check(const Problem &problem, const Layout &layout);

} // namespace gatherwright::layout
