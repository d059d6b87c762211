// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/strip.hpp"

#include <cstddef>
#include <vector>

namespace gatherwright::layout {

/// What takes a length of the strip for itself: nothing else that is left fits beside it. A shortest layout of the rest
/// with these behind it is a shortest layout of all.
struct Aside {
  std::vector<std::size_t> kinds; ///< in the order in which they are set aside
  Ticks along = 0;                ///< what they take together
  Strip rest;
  std::vector<int> kind_of; ///< of each kind of the rest, in the strip
};

Aside set_aside(const Strip &strip);

} // namespace gatherwright::layout
