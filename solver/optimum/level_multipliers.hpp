// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/active_set.hpp"
#include "solver/optimum/held_inequalities.hpp"
#include "solver/optimum/level_constraints.hpp"
#include "solver/optimum/problem.hpp"
#include "solver/optimum/reduction.hpp"

#include <span>
#include <vector>

namespace gatherwright::optimum {

/// From multipliers of a level's constraints, over the reduced unknowns, to multipliers of the problem's own rows: its
/// gradient is what they must sum to.
class LevelMultipliers {
public:
  /// The gradient of a level: A'(A x - b) of its wishes, or of the limits it misses, by their violations; and how large
  /// the greatest of the terms in it is, with every unknown as large as the numbers: the measure of rounding in it.
  double find_gradient(const Problem &problem, const Rows &wishes, std::span<const double> point, double magnitude);
  double find_gradient(const Problem &problem, std::span<const double> violation, double magnitude);
  /// Of level 0, which has none.
  double no_gradient(const Problem &problem);

  /// Multipliers of the rows that make up the gradient found last, of the given size.
  void give(const Problem &problem, const LevelConstraints &constraints,
            std::span<const ActiveSet::Multiplier> multipliers, double size_of_gradient, Reduction &reduction,
            Multipliers &into);

private:
  double add(std::span<const Term> row, double bound, double off, double magnitude);

  std::vector<double> gradient_;
  std::vector<double> of_kept_; ///< room to work in: multipliers of the equalities that are kept
};

/// Inequalities held since an earlier level may have got a multiplier below 0. That level's balance (its gradient less
/// its rows times their multipliers is 0) is added so many times that none is left: there they have one clearly above.
void make_good(const Problem &problem, const HeldInequalities &held, std::span<const double> point, int level,
               Solution &solution);

/// What of a contradiction's multipliers is rounding beside the rest is made 0: rows that have no part in it would not
/// cancel.
void leave_out_rounding(const Problem &problem, Multipliers &contradiction);

/// Makes room for multipliers of rows: all 0, those of wishes of so many levels before.
void size_multipliers(const Problem &problem, int levels_of_wishes, Multipliers &into);

/// By how much a row is more than its bound.
inline double residual(std::span<const Term> row, double bound, std::span<const double> point) {
  double off = -bound;
  for (const Term &term : row)
    off += term.value * point[term.column];
  return off;
}

} // namespace gatherwright::optimum
