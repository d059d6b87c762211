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
  /// Room to work in, for one block after another.
  struct Room {
    Echelon::Room echelon;
    std::vector<double> places, rows; ///< one number a place, and one a row
  };

  /// Takes reduced rows `first` up to `end` of a stage, over a block's columns. False: to factor them is too much work.
  /// Else their entries in the columns of shared unknowns, in the echelon form, are left in `border`, column by column.
  [[nodiscard]] bool eliminate(const ReducedRows &reduced, int first, int end, const BlockMap &map,
                               std::span<const int> columns, std::vector<double> &border, Room &room,
                               const WorkCounter &count);

  /// Appends what is left of the rows on the shared unknowns that the block touches.
  void leave(std::span<const int> touched, std::span<const double> border, LeftRows &left);

  const Echelon &echelon() const { return echelon_; }

  /// How the block's unknowns moved with the locals that are decided now, by unknown.
  std::span<const BlockMove> moves() const { return moves_; }

  /// Moves the block's unknowns to where the rows are at their bounds, which the stage's rows miss by `rests`; what is
  /// left of them still misses its own.
  void meet_bounds(std::span<const double> rests, Freedom &freedom, LeftRows &left, Room &room) const;

  /// The multipliers of the rows, given those of the rows left: they follow from the gradient on the block's unknowns.
  std::span<const double> multipliers(std::span<const double> of_left, std::span<const double> gradient,
                                      Room &room) const;

  /// Which of the stage's rows the first one is.
  int first_row() const { return first_row_; }

  /// What meeting the bounds takes, and so does finding the multipliers.
  std::int64_t work() const { return echelon_.work() + static_cast<std::int64_t>(moves_.size()); }

private:
  void find_moves(const BlockMap &map, std::span<const int> place_of_local);

  int first_row_ = 0;
  int first_left_ = 0;
  Echelon echelon_;
  std::vector<double> shrink_; ///< 1 / length of each row
  std::vector<BlockMove> moves_;
};

} // namespace gatherwright::optimum
