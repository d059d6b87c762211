// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <vector>

namespace gatherwright::optimum {

/// Dense rows of which most terms are 0, while they are brought to echelon form: how many terms each row has, and each
/// column in rows that are not taken yet. Room to work in, for one block after another.
class OpenRows {
public:
  /// Rows of no terms.
  void begin(int rows, int columns) {
    rows_ = rows;
    columns_ = columns;
    matrix_.assign(static_cast<std::size_t>(rows) * columns, 0.0);
    terms_.assign(rows, 0);
    in_column_.assign(columns, 0);
  }

  int rows() const { return rows_; }
  int columns() const { return columns_; }
  double at(int row, int column) const { return matrix_[static_cast<std::size_t>(row) * columns_ + column]; }
  int terms(int row) const { return terms_[row]; }
  /// Rows not taken yet that have a term in a column.
  int in_column(int column) const { return in_column_[column]; }

  void set(int row, int column, double value) {
    double &there = matrix_[static_cast<std::size_t>(row) * columns_ + column];
    const int more = (value != 0) - (there != 0);
    terms_[row] += more;
    in_column_[column] += more;
    there = value;
  }

  /// A row with a term in a column is taken.
  void take_from(int column) { --in_column_[column]; }

private:
  int rows_ = 0;
  int columns_ = 0;
  std::vector<double> matrix_; ///< row by row
  std::vector<int> terms_, in_column_;
};

} // namespace gatherwright::optimum
