// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "optimum/problem.hpp"

#include <vector>

namespace gatherwright::optimum {

/// A part of a problem that shares no unknown with the rest of it: it can be solved by itself.
struct Part {
  Problem problem;
  std::vector<int> unknowns; ///< which of the whole's, ascending
  std::vector<int> limits;   ///< rows of the whole's limits, ascending
};

/// The parts that have shared unknowns, by the first of these; blocks that stand alone are in none. Rows without terms
/// are left out.
std::vector<Part> parts_with_shared(const Problem &problem);

} // namespace gatherwright::optimum
