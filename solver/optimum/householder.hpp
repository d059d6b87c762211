// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

namespace gatherwright::optimum {

/// Column-pivoted Householder QR of a matrix, column by column: R on and above the diagonal, the reflections' vectors
/// below it (their first entry is 1).
struct PivotedQr {
  int rows = 0;
  int columns = 0;
  int rank = 0;
  std::vector<double> matrix;
  std::vector<double> scale; ///< of each reflection
  std::vector<int> pivots;   ///< which column stands at each place

  double *column(int c) { return matrix.data() + static_cast<std::size_t>(c) * rows; }
  const double *column(int c) const { return matrix.data() + static_cast<std::size_t>(c) * rows; }

  /// Factors `matrix` in place; stops where no column is longer than `least`.
  void factor(double least);

  /// Applies reflection k to a vector of `rows`.
  void reflect(int k, double *vector) const;

  /// R11^-1, and R11^-T, times a vector of `rank`, in place: R11 are the pivots' columns of R.
  void solve(double *vector) const;
  void solve_transposed(double *vector) const;
};

} // namespace gatherwright::optimum
