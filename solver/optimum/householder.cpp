// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/householder.hpp"

#include "solver/optimum/dense.hpp"
#include "solver/optimum/tolerances.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace gatherwright::optimum {

void PivotedQr::factor(double least) {
  pivots.resize(columns);
  std::iota(pivots.begin(), pivots.end(), 0);
  scale.clear();
  const auto length = [&](int c, int from) {
    const double *vector = column(c) + from;
    return std::sqrt(dot_in_pairs(vector, vector, rows - from));
  };
  for (rank = 0; rank < std::min(rows, columns); ++rank) {
    const int k = rank;
    int longest = k;
    double norm = length(k, k);
    for (int c = k + 1; c < columns; ++c) {
      const double other = length(c, k);
      // A column must be longer by more than rounding to come first, so that equal columns keep their order.
      if (other > norm * (1 + tolerance::same_length)) {
        norm = other;
        longest = c;
      }
    }
    if (norm <= least) return;
    if (longest != k) {
      std::swap_ranges(column(k), column(k) + rows, column(longest));
      std::swap(pivots[k], pivots[longest]);
    }
    double *vector = column(k);
    const double beta = vector[k] > 0 ? -norm : norm;
    const double head = vector[k] - beta;
    for (int i = k + 1; i < rows; ++i)
      vector[i] /= head;
    vector[k] = beta;
    scale.push_back(-head / beta);
    for (int c = k + 1; c < columns; ++c)
      reflect(k, column(c));
  }
}

void PivotedQr::reflect(int k, double *vector) const {
  const std::size_t below = rows - k - 1;
  const double *householder = column(k) + k + 1;
  const double along = (vector[k] + dot_in_pairs(householder, vector + k + 1, below)) * scale[k];
  if (along == 0) return;
  vector[k] -= along;
  add_times(vector + k + 1, householder, -along, below);
}

void PivotedQr::solve(double *vector) const {
  for (int i = rank - 1; i >= 0; --i) {
    for (int k = i + 1; k < rank; ++k)
      vector[i] -= column(k)[i] * vector[k];
    vector[i] /= column(i)[i];
  }
}

void PivotedQr::solve_transposed(double *vector) const {
  for (int k = 0; k < rank; ++k) {
    for (int i = 0; i < k; ++i)
      vector[k] -= column(k)[i] * vector[i];
    vector[k] /= column(k)[k];
  }
}

} // namespace gatherwright::optimum
