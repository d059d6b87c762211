// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/householder.hpp"

#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <numeric>

namespace gatherwright::optimum {

namespace {

using Vector = Eigen::Map<Eigen::VectorXd>;
using ConstVector = Eigen::Map<const Eigen::VectorXd>;

} // namespace

void PivotedQr::factor(double least) {
  pivots.resize(columns);
  std::iota(pivots.begin(), pivots.end(), 0);
  scale.clear();
  const auto length = [&](int c, int from) { return ConstVector(column(c) + from, rows - from).norm(); };
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
    Vector(vector + k + 1, rows - k - 1) /= head;
    vector[k] = beta;
    scale.push_back(-head / beta);
    for (int c = k + 1; c < columns; ++c)
      reflect(k, column(c));
  }
}

void PivotedQr::reflect(int k, double *vector) const {
  const int below = rows - k - 1;
  const ConstVector householder(column(k) + k + 1, below);
  Vector rest(vector + k + 1, below);
  const double along = (vector[k] + householder.dot(rest)) * scale[k];
  if (along == 0) return;
  vector[k] -= along;
  rest -= along * householder;
}

} // namespace gatherwright::optimum
