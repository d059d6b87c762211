// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/householder.hpp"
#include "solver/optimum/open_rows.hpp"

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
  /// Room to work in, for one block after another.
  struct Room {
    OpenRows rows;
    std::vector<int> next;         ///< rows of few terms, to be looked at
    std::vector<int> left;         ///< columns that no row of few terms gives
    std::vector<int> column_place; ///< of each column among the pivots
  };

  /// Takes out what those of `room.rows` give that have few terms. The rows are of length 1 at most.
  void substitute(Room &room);

  /// Multiplications that the rest of it takes.
  std::int64_t work_left() const;

  /// Factors what is left; no more is decided where no column is longer than `least`.
  void factor(double least, Room &room);

  int rows() const { return static_cast<int>(place_of_.size()); }
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

  static bool find_step(const OpenRows &rows, int row, Step &step);
  void take(int row, Step step, OpenRows &rows, std::vector<int> &next);
  void put_into(int row, const Step &step, OpenRows &rows);
  void lay_out_rest(Room &room);

  std::vector<Step> steps_;
  std::vector<Update> updates_; ///< of one step after another
  PivotedQr qr_;                ///< of what is left, its rows at the places after the steps'
  std::vector<int> place_of_;
  std::vector<int> pivots_;
};

} // namespace gatherwright::optimum
