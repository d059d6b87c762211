// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/active_triangle.hpp"

#include "solver/optimum/work.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright::optimum {

namespace {

/// With so many rows it grows by a quarter, no longer to twice its size.
constexpr std::size_t large_triangle = 1000;

} // namespace

double ActiveTriangle::append(const double *along, double left_square) {
  const std::size_t q = size_;
  if (q == stride_) widen();
  double *at = triangle_.data() + q;
  for (std::size_t i = 0; i < q; ++i, at += stride_)
    *at = along[i];
  ++size_;
  return *at = 1 / std::sqrt(left_square);
}

void ActiveTriangle::widen() {
  const std::size_t wider = stride_ < large_triangle
                                ? 2 * stride_ + 8
                                : std::min(stride_ + stride_ / 4, static_cast<std::size_t>(most_active) + 1);
  std::vector<double> moved(wider * wider);
  for (int i = 0; i < size_; ++i)
    std::copy(row(i) + i, row(i) + size_, moved.begin() + static_cast<std::ptrdiff_t>(i * wider) + i);
  triangle_.swap(moved);
  stride_ = wider;
}

void ActiveTriangle::drop(int position) {
  const int q = size_--;
  for (int i = 0; i < position; ++i)
    std::copy(row(i) + position + 1, row(i) + q, row(i) + position);
  for (int j = position; j + 1 < q; ++j) {
    double *upper = row(j);
    double *lower = row(j + 1);
    const double pivot = 1 / lower[j + 1];
    const double inverse = 1 / std::sqrt(upper[j + 1] * upper[j + 1] + pivot * pivot);
    const Rotation<double> turn{upper[j + 1] * inverse, pivot * inverse};
    upper[j] = inverse;
    rotate<1>(turn, upper + j + 2, lower + j + 2, q - j - 2);
  }
}

void ActiveTriangle::solve(std::span<double> c) const {
  if (c.empty()) return;
  double *const values = c.data();
  const std::size_t count = c.size();
  const double *of = row(static_cast<int>(count) - 1);
  double last = values[count - 1] *= of[count - 1];
  for (std::size_t j = count - 1; j-- > 0;) {
    of -= stride_;
    const double far = dot_in_fours(of + j + 2, values + j + 2, count - j - 2);
    values[j] = last = ((values[j] - far) - of[j + 1] * last) * of[j];
  }
}

} // namespace gatherwright::optimum
