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
  std::vector<int> columns;         ///< per block: its locals, then the shared unknowns it touches
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
  std::span<const int> columns;
  std::span<const double> values;
  int block = -1; ///< its columns are the block's; -1: shared unknowns only
};

/// Upper triangular factor R of a least squares problem |R y - d|^2, bordered block-diagonal: each block's triangle
/// with its border on the shared unknowns, and a triangle of the shared ones. Built row by row with Givens rotations,
/// so that A'A is never formed; exact zeros are kept.
class ArrowFactor {
public:
  void reset(const Layout &layout);

  /// Adds the square of row y - bound.
  void insert(const RowView &row, double bound);

  /// Adds (weight (y_c - centre_c))^2 for every unknown, so that the factor is regular.
  void add_proximal(double weight, std::span<const double> centre);

  /// Moves the centre of the proximal term by `step` without factoring anew: d += weight^2 R^-T step.
  void move_centre(double weight, std::span<const double> step);

  /// Greatest and least absolute value on the diagonal.
  double greatest_diagonal() const;
  double least_diagonal() const;

  /// w = R^-T n for a sparse row n. Writes all of w; `support` lists the entries that may differ from 0.
  void solve_transposed(const RowView &row, std::span<double> w, std::vector<int> &support) const;

  /// y = R^-1 v; y may be v.
  void solve(std::span<const double> v, std::span<double> y) const;

  std::span<const double> right_side() const { return right_side_; }
  int size() const { return layout_->size(); }

private:
  double *block_row(int block, int local) { return &blocks_[block_start_[block] + local * width(block)]; }
  const double *block_row(int block, int local) const { return &blocks_[block_start_[block] + local * width(block)]; }
  int width(int block) const { return layout_->column_start[block + 1] - layout_->column_start[block]; }
  double *shared_row(int i) { return &shared_[static_cast<std::size_t>(i) * layout_->shared]; }
  const double *shared_row(int i) const { return &shared_[static_cast<std::size_t>(i) * layout_->shared]; }
  void insert_shared(int first, double bound);

  const Layout *layout_ = nullptr;
  std::vector<int> block_start_;
  std::vector<double> blocks_; ///< per block: locals x (locals + touched), row by row
  std::vector<double> shared_; ///< shared x shared, row by row
  std::vector<double> right_side_;
  std::vector<double> row_; ///< scratch: a block's row, or a shared one
  std::vector<double> shared_scratch_;
  bool shared_diagonal_ = true;
};

} // namespace gatherwright::optimum
