// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/problem.hpp"

namespace gatherwright::optimum {

/// The wishes of all levels as those of one. What levels one after another come to is near to what these come to at
/// once, and that is found by a single search: a good place for the others to begin at. Wishes of blocks count less
/// than those of shared unknowns alone, so that these go where they would be by themselves and the blocks follow.
Rows wishes_at_once(const Problem &problem);

} // namespace gatherwright::optimum
