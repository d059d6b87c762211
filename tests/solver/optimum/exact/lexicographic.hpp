// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/problem.hpp"
#include "tests/solver/optimum/exact/rational.hpp"

#include <array>
#include <span>

/// Lexicographic least squares with inequalities, solved without any rounding: every number of a problem is a rational
/// one. For small problems. Shares nothing with the solver but the problem's own type.
namespace gatherwright::tests::exact {

inline constexpr int levels = 1 + optimum::wish_levels; ///< of limits, then of wishes

struct Answer {
  bool feasible = false;
  /// Of a conflict: rows so multiplied sum to no terms and a bound above 0.
  Vector conflict_equal;
  Vector conflict_at_least;         ///< >= 0
  Vector x;                         ///< one of the best
  Vector violation;                 ///< of each limit
  std::array<Number, levels> least; ///< sums of squares: of violations, then of each level's wishes
  std::vector<char> loose;          ///< of each unknown: it differs among the best
  /// Inequalities with a multiplier above 0 at some level: none of the best leaves them.
  std::vector<char> at_least_binds;
  std::vector<char> limit_binds;

  bool unique() const;
};

Answer solve(const optimum::Problem &problem);

/// A row's value less its bound, and the sum of the absolute values of what went into it.
struct RowValue {
  Number rest;
  Number size;
};
RowValue value(const optimum::Rows &rows, int row, const Vector &x);

Vector numbers(std::span<const double> values);

} // namespace gatherwright::tests::exact
