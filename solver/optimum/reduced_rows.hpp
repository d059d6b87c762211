// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <vector>

namespace gatherwright::optimum {

/// How the reduced unknowns lie: the shared ones, then the locals of each block one after another.
/// A block's rows have terms on its locals and on a fixed list of shared unknowns.
struct Layout {
  std::vector<int> local_start{0};  ///< blocks + 1, the first after the shared
  std::vector<int> column_start{0}; ///< blocks + 1, into `columns`
  std::vector<int> columns;         ///< per block: its locals, then the shared unknowns it touches, each ascending
  int shared = 0;

  int blocks() const { return static_cast<int>(local_start.size()) - 1; }
  int locals(int block) const { return local_start[block + 1] - local_start[block]; }
  int size() const { return local_start.back(); }
  std::span<const int> block_columns(int block) const {
    return std::span(columns).subspan(column_start[block], column_start[block + 1] - column_start[block]);
  }
};

/// A sparse row over the reduced unknowns.
struct RowView {
  std::span<const int> columns; ///< in the order of the block's columns
  std::span<const double> values;
  int block = -1; ///< -1: shared unknowns only

  double times(const double *y) const {
    double sum = 0;
    for (std::size_t k = 0; k < columns.size(); ++k)
      sum += values[k] * y[columns[k]];
    return sum;
  }
};

/// Rows over the reduced unknowns, none of their values 0.
struct ReducedRows {
  std::vector<int> start{0};
  std::vector<int> columns;
  std::vector<double> values;
  std::vector<int> block;
  std::vector<double> rest; ///< bound - row * point
  std::vector<double> norm; ///< Euclidean, of the row before it was reduced: the measure of what is nothing in it

  int size() const { return static_cast<int>(rest.size()); }
  RowView view(int i) const {
    const std::size_t terms = start[i + 1] - start[i];
    return {{columns.data() + start[i], terms}, {values.data() + start[i], terms}, block[i]};
  }
  void put(int column, double value) {
    columns.push_back(column);
    values.push_back(value);
  }
  /// Ends the row whose terms were put.
  void end_row(int of_block, double bound, double length) {
    start.push_back(static_cast<int>(columns.size()));
    block.push_back(of_block);
    rest.push_back(bound);
    norm.push_back(length);
  }
  void clear() {
    start.resize(1);
    columns.clear();
    values.clear();
    block.clear();
    rest.clear();
    norm.clear();
  }
};

} // namespace gatherwright::optimum
