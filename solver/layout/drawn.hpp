// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "layout/grid.hpp"
#include "layout/layout.hpp"
#include "layout/problem.hpp"
#include "layout/tree.hpp"

namespace gatherwright::layout {

/// A tree of all rectangles as places and cuts in the problem's own lengths; the rest of the layout is left as it is.
/// Of each part what is not needed is cut off first, then it is divided, and its first half before its second.
Layout drawn(const Problem &problem, const Grid &grid, const Tree &tree);

} // namespace gatherwright::layout
