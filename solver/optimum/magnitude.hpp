// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/dense.hpp"
#include "solver/optimum/reduced_rows.hpp"

#include <algorithm>
#include <cmath>
#include <span>

namespace gatherwright::optimum {

/// How large the numbers of a problem are, as far as they have been seen: rounding in what is made of them is measured
/// by it. It only ever grows.
class Magnitude {
public:
  void see(double number) { size_ = std::max(size_, number); }
  void see(std::span<const double> point) { see(largest(point)); }
  /// The numbers are at least as large as the bounds over the norms of their rows.
  void see(std::span<const ReducedRows::Row> rows) {
    double size = size_;
    for (const ReducedRows::Row &row : rows)
      if (std::abs(row.rest) > size * row.norm && row.norm > 0) size = std::abs(row.rest) / row.norm;
    size_ = size;
  }
  /// Where none has been seen but 0, they are as large as 1.
  void settle() {
    if (size_ == 0) size_ = 1;
  }

  double size() const { return size_; }

private:
  double size_ = 0;
};

} // namespace gatherwright::optimum
