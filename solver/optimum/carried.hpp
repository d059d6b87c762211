// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/problem.hpp"

namespace gatherwright::optimum {

/// Solves a problem with twice the digits: for those few whose rows are so nearly parallel, or whose numbers are so far
/// apart, that double precision cannot carry them. The same levels and the same rules for what depends and what agrees
/// as in Hierarchy, but dense, without blocks, and some thousand times as slow.
///
/// Each level is a least squares problem under all rows that hold or are held, with a proximal term so weak that a few
/// moves of its centre make it vanish. The point is rounded to double precision at the end.
///
/// Where a row is nearly parallel to others by less than double precision carries too, yet not the same as they, the
/// status is `stalled`: what it says beside them is lost, and the answer not proved.
///
/// `budget` is lessened by the work done, counted in multiplications of wide numbers (some 20 million a second). False
/// where it was used up or the search came to no end: `into` then holds nothing of use.
bool solve_carried(const Problem &problem, bool everything, long &budget, Solution &into);

} // namespace gatherwright::optimum
