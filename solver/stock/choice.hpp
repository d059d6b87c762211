// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/solver.hpp"
#include "solver/stock/shelf.hpp"

#include <optional>
#include <vector>

namespace gatherwright::stock {

/// What came of choosing lengths so that their pieces come out of the cloth that there is.
struct Choice {
  enum class Outcome {
    free,     ///< nothing is to be chosen
    chosen,   ///< `steps` of the tape
    none,     ///< no choice comes out of it: that is proved
    not_found ///< none was found, for want of tape steps that keep level 0 or of budget
  };
  Outcome outcome = Outcome::free;
  std::vector<std::int64_t> steps; ///< of each length in question
  bool proved = true;              ///< nothing better is possible
};

/// Of all points on the tape whose pieces fit, that with the least level 1, then 2, 3, 4, then the smaller first
/// length. `scheme` keeps level 0 without regard to cloth. Branch and bound, best first: the levels' optimum within a
/// box is its key and the point tried there; where that does not fit, what lies above a misfit is cut away: the first
/// on the way to it from the box's least corner, made smaller length by length. Budgets are counts.
enum class Effort {
  whole, ///< as much as a plan may take
  trial, ///< of one of many changes
};
Choice choose(const allot::Scheme &scheme, double tape_step, Shelf &shelf, optimum::Solver &solver, Effort effort);

/// Of the conditions that no choice keeps together, those of the scheme and the shelf's cloths behind them, an
/// irreducible set: dropped one by one, the last first, wherever the rest still has no choice. False in `irreducible`:
/// that was too much to try.
struct NamedConflict {
  std::vector<Condition> conditions;
  bool irreducible = true;
};
NamedConflict named_conflict(const allot::Scheme &scheme, double tape_step, Shelf &shelf, optimum::Solver &solver);

} // namespace gatherwright::stock
