// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/freedom.hpp"
#include "solver/optimum/householder.hpp"
#include "solver/optimum/left_rows.hpp"
#include "solver/optimum/reduced_rows.hpp"

#include <span>
#include <vector>

namespace gatherwright::optimum {

/// Rows of one block, held together: their pivoted QR over the locals that the block had before, each row scaled to
/// length 1, and how the block's unknowns moved with those locals. Its pivots are what the rows decide; as many rows as
/// that are used up, and what is left of the others stands among the rows left, from `first_left` on.
class BlockElimination {
public:
  /// Factors reduced rows `first` up to `end` of a stage, over a block's columns. Their entries in the columns of
  /// shared unknowns, scaled and reflected, are left in `border`, column by column.
  void eliminate(const ReducedRows &reduced, int first, int end, const BlockMap &map, std::span<const int> columns,
                 std::vector<double> &border);

  /// Appends what is left of the rows on the shared unknowns that the block touches.
  void leave(std::span<const int> touched, std::span<const double> border, LeftRows &left);

  const PivotedQr &qr() const { return qr_; }

  /// Whether a row is nearly parallel to those before it.
  bool is_nearly_parallel() const;

  /// Moves the block's unknowns to where the rows are at their bounds, which the stage's rows miss by `rests`; what is
  /// left of them still misses its own.
  void meet_bounds(std::span<const double> rests, Freedom &freedom, LeftRows &left);

  /// The multipliers of the rows, given those of the rows left: they follow from the gradient on the block's unknowns.
  std::span<const double> multipliers(std::span<const double> of_left, std::span<const double> gradient);

  /// Which of the stage's rows the first one is.
  int first_row() const { return first_row_; }

  /// What meeting the bounds takes, and so does finding the multipliers.
  std::int64_t work() const { return static_cast<std::int64_t>(qr_.rows + unknowns_) * (qr_.rank + 1); }

private:
  const double *entry(int i) const { return entry_.data() + static_cast<std::size_t>(i) * qr_.columns; }

  int first_unknown_ = 0;
  int unknowns_ = 0;
  int first_row_ = 0;
  int first_left_ = 0;
  PivotedQr qr_;
  std::vector<double> shrink_; ///< 1 / length of each row
  std::vector<double> entry_;  ///< the block's map before, its locals alone: unknowns x locals, row by row
  std::vector<double> right_;  ///< room to work in: a right side, one number a row
};

} // namespace gatherwright::optimum
