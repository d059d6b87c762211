// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/reduced_rows.hpp"
#include "solver/optimum/work.hpp"

#include <span>
#include <vector>

namespace gatherwright::optimum {

/// Upper triangular factor R of a least squares problem |R y - d|^2, bordered block-diagonal: each block's triangle
/// with its border on the shared unknowns, and a triangle of the shared ones. Built row by row with Givens rotations,
/// so that A'A is never formed; exact zeros are kept, and as long as every row has one term nothing but the diagonal is
/// stored or looked at.
class ArrowFactor {
public:
  void count_into(Work *work) { count_.into(work); }

  /// R = weight times the identity, d = 0.
  void reset(const Layout &layout, double weight);

  /// Adds the square of row y - bound.
  void insert(const RowView &row, double bound);

  /// The same of several rows, each with its rest for a bound.
  void insert(const ReducedRows &rows);

  /// Adds (weight (y_c - centre_c))^2 for every unknown.
  void add_proximal(double weight);

  /// Ends the building: R is regular from here on.
  void finish();

  /// Moves the centre of a proximal term that is part of R by `step`: d += weight^2 R^-T step. `moved`: by how much the
  /// minimum without constraints moves.
  void move_centre(double weight, std::span<const double> step, std::span<double> moved);

  /// d = R y: the minimum without constraints lies at y.
  void aim_at(std::span<const double> y);

  /// Greatest and least absolute value on the diagonal; 0 where there is no unknown.
  double greatest_pivot() const;
  double least_pivot() const;

  /// w = R^-T n and y = R^-1 w for a sparse row n. Returns the square of w.
  double solve_both(const RowView &row, std::span<double> w, std::span<double> y) const;

  /// The same where R is diagonal, of y alone, which is all 0 before: what is 0 of it need not be written then.
  double step_along(const RowView &row, std::span<double> y) const {
    double square = 0;
    count_.add(static_cast<std::int64_t>(row.terms.size()));
    for (const auto &[column, value] : row.terms) {
      const double along = value * inverse_[column];
      y[column] = along * inverse_[column];
      square += along * along;
    }
    return square;
  }

  /// Makes that y all 0 again.
  void clear_step(const RowView &row, std::span<double> y) const {
    for (const Term &term : row.terms)
      y[term.column] = 0;
  }

  /// w = R^-T w and y = R^-1 w. Returns the square of the new w.
  double solve_both(std::span<double> w, std::span<double> y) const;

  /// y += (R'R)^-1 w; w and `step` are room to work in.
  void add_step(std::span<double> w, std::span<double> step, std::span<double> y) const;

  /// y = R^-1 v; y may be v.
  void solve(std::span<const double> v, std::span<double> y) const;

  /// More unknowns are shared than there is room for: it is no factor.
  bool too_large() const { return too_large_; }

  bool is_diagonal() const { return diagonal_; }

  std::span<const double> right_side() const { return right_side_; }
  int size() const { return layout_->size(); }

private:
  double *block_row(int block, int local) { return &blocks_[block_start_[block] + local * width(block)]; }
  const double *block_row(int block, int local) const { return &blocks_[block_start_[block] + local * width(block)]; }
  int width(int block) const { return layout_->column_start[block + 1] - layout_->column_start[block]; }
  double *shared_row(int i) { return &shared_[static_cast<std::size_t>(i) * layout_->shared]; }
  const double *shared_row(int i) const { return &shared_[static_cast<std::size_t>(i) * layout_->shared]; }
  void insert_on_diagonal(int column, double value, double bound);
  void insert_off_diagonal(const RowView &row, double bound);
  void insert_in_block(int block, double bound);
  void insert_shared(int first, double bound);
  void leave_diagonal();
  bool leave_shared_diagonal();
  void solve_transposed(std::span<double> w) const;
  void solve_transposed_block(int block, std::span<double> w) const;
  void solve_transposed_shared(int first, std::span<double> w) const;

  const Layout *layout_ = nullptr;
  std::vector<double> pivot_; ///< the diagonal, >= 0
  std::vector<double> inverse_;
  std::vector<int> block_start_;
  std::vector<double> blocks_; ///< per block: locals x (locals + touched), row by row; above the diagonal only
  std::vector<double> shared_; ///< shared x shared, row by row; above the diagonal only
  std::vector<double> right_side_;
  std::vector<double> row_;        ///< scratch: a row over a block's columns
  std::vector<double> shared_row_; ///< scratch: a row over the shared unknowns; 0 between calls
  bool diagonal_ = true;           ///< nothing stands off the diagonal, and blocks_ is not laid out
  bool too_large_ = false;
  bool shared_diagonal_ = true; ///< nothing stands off it among the shared, and shared_ is not laid out
  std::int64_t entries_ = 0;    ///< on the diagonal and off it, those of the shared's triangle included
  WorkCounter count_;
};

} // namespace gatherwright::optimum
