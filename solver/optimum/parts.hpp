// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/problem.hpp"

#include <array>
#include <vector>

namespace gatherwright::optimum {

/// A part of a problem that shares no unknown with the rest of it, so that it can be solved by itself; and what of the
/// whole its unknowns and rows are, ascending.
struct PartOfProblem {
  Problem problem;
  std::vector<int> unknowns;
  std::vector<int> equal, at_least, limits;
  std::array<std::vector<int>, wish_levels> wishes;
};

/// The parts of a problem: first those that have shared unknowns, by the first of these; last the blocks that touch
/// none, together, with rows that have no terms, if there are any of either.
std::vector<PartOfProblem> parts_of(const Problem &problem);

/// A solution of the whole with nothing in it yet, and what a part has found put into it: point, violations,
/// multipliers and what is loose.
Solution nothing_solved(const Problem &problem);
void put_together(const PartOfProblem &part, const Solution &found, Solution &whole);

/// A part's contradiction, as one of the whole.
Multipliers contradiction_of_whole(const Problem &whole, const PartOfProblem &part, const Multipliers &contradiction);

} // namespace gatherwright::optimum
