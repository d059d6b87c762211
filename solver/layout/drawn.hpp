// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/grid.hpp"
#include "solver/layout/layout.hpp"
#include "solver/layout/problem.hpp"
#include "solver/layout/tree.hpp"

namespace gatherwright::layout {

/// A tree of all rectangles as places and cuts in the problem's own lengths; the rest of the layout is left as it is.
/// Of each part what is not needed is cut off first, then it is divided, and its first half before its second; but what
/// is torn across the whole width is torn before anything is cut off its side, and of parts in a row the one nearest
/// the start is cut off first.
Layout drawn(const Problem &problem, const Grid &grid, const Tree &tree);

} // namespace gatherwright::layout
