// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/householder.hpp"

#include <cstddef>
#include <cstdint>
#include <vector>

namespace gatherwright::optimum {

/// Rows brought to echelon form. A row that has no more than two terms, one of them clear, gives that unknown: it is
/// put into the other rows at once, which may then have few terms themselves. What is left goes through pivoted QR. So
/// rows of a job, of which most name one length or say that two are the same, cost little more than a look at each,
/// and what rows decide is told by orthogonal factors where that is in question.
///
/// Rows have places from here on: first the `rank` rows that decide an unknown each, then those that are left.
class Echelon {
public:
  /// Rows of no terms, each of length 1 at most when its terms are set.
  void begin(int rows, int columns);
  void set(int row, int column, double value) {
    matrix_[static_cast<std::size_t>(row) * columns_ + column] = value;
    if (value != 0) ++terms_[row];
  }

  /// Takes out what rows of few terms give.
  void substitute();

  /// Multiplications that the rest of it takes.
  std::int64_t work_left() const;

  /// Factors what is left; no more is decided where no column is longer than `least`.
  void factor(double least);

  int rows() const { return rows_; }
  int columns() const { return columns_; }
  int rank() const { return static_cast<int>(steps_.size()) + qr_.rank; }
  /// All columns: of the unknown that the row at each place decides, and then those of unknowns that stay free.
  const std::vector<int> &pivots() const { return pivots_; }
  int place_of(int row) const { return place_of_[row]; }

  /// Whether a row is nearly parallel to others.
  bool is_nearly_parallel() const;

  /// What was done to the rows, done to a vector of one number a place; and the transpose of that.
  void apply(double *places) const;
  void apply_transposed(double *places) const;

  /// R11^-1, and R11^-T, times a vector of `rank`, in place: R11 are the columns of what is decided.
  void solve(double *vector) const;
  void solve_transposed(double *vector) const;

  /// R12, the columns of what stays free: `rank` numbers of each, one after another.
  void free_columns(double *into) const;

  /// Multiplications in each of these.
  std::int64_t work() const;

private:
  /// A row with one or two terms: what it gives, and the other that it has, if any.
  struct Step {
    int pivot = 0; ///< column
    double value = 0;
    int beside = -1; ///< column, and from `factor` on the place of that among the pivots; -1: none
    double times = 0;
    int end_update = 0; ///< its rows that it was put into end here
  };
  struct Update {
    int row = 0; ///< and then its place
    double factor = 0;
  };

  double &entry(int row, int column) { return matrix_[static_cast<std::size_t>(row) * columns_ + column]; }
  bool find_step(int row, Step &step);
  void put_into(int row, const Step &step, int into);
  void lay_out_rest();

  int rows_ = 0;
  int columns_ = 0;
  std::vector<double> matrix_; ///< row by row
  std::vector<int> terms_;     ///< of each row
  std::vector<Step> steps_;
  std::vector<Update> updates_; ///< of one step after another
  PivotedQr qr_;                ///< of what is left, its rows at the places after the steps'
  std::vector<int> place_of_;
  std::vector<int> pivots_;
  // Room to work in: rows with few terms to be looked at, columns that are left, the place of each column.
  std::vector<int> next_, left_, column_place_;
};

} // namespace gatherwright::optimum
