// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/echelon.hpp"
#include "solver/optimum/freedom.hpp"
#include "solver/optimum/left_rows.hpp"
#include "solver/optimum/reduced_rows.hpp"

#include <span>
#include <vector>

namespace gatherwright::optimum {

/// Rows of one block, held together: their echelon form over the locals that the block had before, each row scaled to
/// length 1, and how the block's unknowns moved with those locals. As many locals as its rank are what the rows decide;
/// what is left of the other rows stands among the rows left, from `first_left` on.
class BlockElimination {
public:
  /// Takes reduced rows `first` up to `end` of a stage, over a block's columns. False: to factor them is too much work.
  /// Else their entries in the columns of shared unknowns, in the echelon form, are left in `border`, column by column.
  [[nodiscard]] bool eliminate(const ReducedRows &reduced, int first, int end, const BlockMap &map,
                               std::span<const int> columns, std::vector<double> &border, const WorkCounter &count);

  /// Appends what is left of the rows on the shared unknowns that the block touches.
  void leave(std::span<const int> touched, std::span<const double> border, LeftRows &left);

  const Echelon &echelon() const { return echelon_; }

  /// Moves the block's unknowns to where the rows are at their bounds, which the stage's rows miss by `rests`; what is
  /// left of them still misses its own.
  void meet_bounds(std::span<const double> rests, Freedom &freedom, LeftRows &left);

  /// The multipliers of the rows, given those of the rows left: they follow from the gradient on the block's unknowns.
  std::span<const double> multipliers(std::span<const double> of_left, std::span<const double> gradient);

  /// Which of the stage's rows the first one is.
  int first_row() const { return first_row_; }

  /// What meeting the bounds takes, and so does finding the multipliers.
  std::int64_t work() const { return echelon_.work() + static_cast<std::int64_t>(moves_.size()); }

private:
  /// How an unknown of the block moved with a local that is decided now.
  struct Move {
    int unknown = 0;
    int place = 0; ///< of the row that decides the local
    double along = 0;
  };

  void find_moves(const BlockMap &map);

  int first_row_ = 0;
  int first_left_ = 0;
  Echelon echelon_;
  std::vector<double> shrink_; ///< 1 / length of each row
  std::vector<Move> moves_;    ///< by unknown
  // Room to work in: one number a place, one a row, and of each local the place of the row that decides it.
  std::vector<double> places_, rows_;
  std::vector<int> place_of_local_;
};

} // namespace gatherwright::optimum
