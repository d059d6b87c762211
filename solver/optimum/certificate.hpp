// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/problem.hpp"

namespace gatherwright::optimum {

/// Largest relative residuals of the optimality conditions over all levels; each is relative to the sum of the absolute
/// values of its own terms: of its row, or of its column of the balance.
struct Residuals {
  double feasibility = 0;     ///< of level 0, and of the limits at their least violations
  double stationarity = 0;    ///< A'(A x - b) against the rows times their multipliers
  double complementarity = 0; ///< a multiplier that counts on a row that is not met, or of the wrong sign

  double largest() const;
};

/// Checks a solution against the raw rows of its problem. Solves nothing and shares nothing with the solver but the
/// problem's own types: for each level, that its gradient is a combination of the rows that bind it, with multipliers
/// of the right sign, each on a row that is met. By induction over the levels that is enough for lexicographic
/// optimality.
Residuals check(const Problem &problem, const Solution &solution);

/// Only whether x keeps level 0: largest relative violation.
double check_feasible(const Problem &problem, const std::vector<double> &x);

} // namespace gatherwright::optimum
