// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/dense.hpp"

#include <cstddef>
#include <span>
#include <vector>

namespace gatherwright::optimum {

/// The triangle T of the QR factors of normals N, column after column: T'T = N'N. Upper, and kept row by row with its
/// diagonal inverted.
class ActiveTriangle {
public:
  int size() const { return size_; }
  void clear() { size_ = 0; }
  void keep_first(int columns) { size_ = columns; }

  /// Appends the column of a normal: its part along the normals before it, as `solve_transposed` finds it, and the
  /// square of what is left of it. Returns the inverse of the length of that.
  double append(const double *along, double left_square);

  /// Takes a column out: rotations of neighbouring rows make the rest upper triangular.
  void drop(int position);

  /// c becomes T^-T c, for c as long as T is wide or shorter. Two numbers are found at a time, so that the second does
  /// not wait for the first to be stored and fetched; each is handed to found(position, number). What is not met stays
  /// 0: rows are passed over where both are. Returns how many numbers there are from the first on that is not 0.
  template <class Found> [[gnu::always_inline]] std::size_t solve_transposed(std::span<double> c, Found found) const {
    double *const values = c.data();
    const std::size_t count = c.size();
    std::size_t j = 0;
    while (j < count && values[j] == 0)
      ++j;
    const std::size_t met = count - j;
    const double *of = triangle_.data() + j * stride_;
    for (; j + 2 <= count; j += 2, of += 2 * stride_) {
      const double *const next = of + stride_;
      const double first = values[j] * of[j];
      const double second = (values[j + 1] - first * of[j + 1]) * next[j + 1];
      if (first == 0 && second == 0) continue;
      values[j] = first;
      values[j + 1] = second;
      found(j, first);
      found(j + 1, second);
      take_both(values + j + 2, first, of + j + 2, second, next + j + 2, count - j - 2);
    }
    if (j < count) found(j, values[j] *= of[j]);
    return met;
  }

  /// c becomes T^-1 c. The number found last comes last in each sum, so that the rest need not wait for it.
  void solve(std::span<double> c) const;

private:
  void widen();
  double *row(int i) { return triangle_.data() + static_cast<std::size_t>(i) * stride_; }
  const double *row(int i) const { return triangle_.data() + static_cast<std::size_t>(i) * stride_; }

  std::vector<double> triangle_;
  std::size_t stride_ = 0; ///< of its rows
  int size_ = 0;
};

} // namespace gatherwright::optimum
