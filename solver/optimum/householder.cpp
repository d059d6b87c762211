// SPDX-License-Identifier: GPL-3.0-or-later
#include "optimum/householder.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace gatherwright::optimum {

void PivotedQr::factor(double least) {
  pivots.resize(columns);
  std::iota(pivots.begin(), pivots.end(), 0);
  scale.clear();
  const auto length = [&](int c, int from) {
    double square = 0;
    for (int i = from; i < rows; ++i)
      square += column(c)[i] * column(c)[i];
    return std::sqrt(square);
  };
  for (rank = 0; rank < std::min(rows, columns); ++rank) {
    const int k = rank;
    int longest = k;
    double norm = length(k, k);
    for (int c = k + 1; c < columns; ++c) {
      const double other = length(c, k);
      // A column must be longer by more than rounding to come first, so that equal columns keep their order.
      if (other > norm * (1 + 1e-9)) {
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
  const double *householder = column(k);
  double along = vector[k];
  for (int i = k + 1; i < rows; ++i)
    along += householder[i] * vector[i];
  if (along == 0) return;
  along *= scale[k];
  vector[k] -= along;
  for (int i = k + 1; i < rows; ++i)
    vector[i] -= along * householder[i];
}

} // namespace gatherwright::optimum
