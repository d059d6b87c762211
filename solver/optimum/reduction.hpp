// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/block_eliminations.hpp"
#include "solver/optimum/freedom.hpp"
#include "solver/optimum/held_multipliers.hpp"
#include "solver/optimum/left_rows.hpp"
#include "solver/optimum/problem.hpp"
#include "solver/optimum/reduced_rows.hpp"
#include "solver/optimum/reused.hpp"
#include "solver/optimum/row_name.hpp"
#include "solver/optimum/stage.hpp"
#include "solver/optimum/work.hpp"

#include <span>
#include <utility>
#include <vector>

namespace gatherwright::optimum {

/// A problem less the rows that are held (made equalities), stage by stage. The locals of each block are eliminated;
/// what is left of the rows stands on shared unknowns alone. Of these, a row with one open unknown fixes
/// it, the others are kept as equalities. So every x that holds what is held is point + T y, with y that meets what is
/// kept.
class Reduction {
public:
  void count_into(Work *work) { count_.into(work); }

  enum class Hold {
    at_bound, ///< row x = bound
    at_point  ///< row x = what it is at the point
  };

  /// Nothing is held. False: there is no room for its blocks, and nothing has begun.
  [[nodiscard]] bool begin(const Problem &problem);

  /// Begins where `held` stands, which has held rows at their bounds: rows that this problem has too, at bounds of its
  /// own. The answer is the same, to the bit, as if they were held anew. `held` is looked at as long as this goes on.
  void begin(const Problem &problem, const Reduction &held);

  /// Holds rows from now on. False: it was too much work, and not all are held.
  bool hold(std::span<const RowName> rows, Hold at);

  /// Numbers in its blocks' maps and in the rows left.
  std::size_t size() const;

  const Layout &layout() const { return freedom_.layout(); }

  /// Whether no row loses a term by being reduced, since every unknown is shared and open.
  bool all_is_free() const { return freedom_.all_is_shared_and_open(); }

  /// Appends rows over the reduced unknowns: all of them, or those named.
  void append(const Rows &rows, ReducedRows &into) { nearly_parallel_ |= freedom_.append(rows, into, count_); }
  void append(const Rows &rows, std::span<const int> which, ReducedRows &into) {
    nearly_parallel_ |= freedom_.append(rows, which, into, count_);
  }

  /// Appends the equalities that are kept, with their bounds relative to the point. Returns how many.
  int append_kept(ReducedRows &into) const { return left_.append_kept(freedom_.open(), into); }

  /// Moves the point by T y.
  void move(std::span<const double> y);

  /// Moves the point to x, which holds all that is held but for what the rows held decide.
  void move_to(std::span<const double> x);

  /// T y, and row `unknown` of T.
  void displacement(std::span<const double> y, std::span<double> by) const { freedom_.displacement(y, by, count_); }
  void row_of(int unknown, std::span<double> row) const { freedom_.row_of(unknown, row); }

  std::span<const double> point() const { return freedom_.point(); }

  /// Whether a row held or appended was nearly parallel to those held before it.
  bool met_nearly_parallel() const { return nearly_parallel_; }

  /// What the multipliers of held rows must be for `gradient` = sum of multiplier * row over all held rows, when those
  /// of the equalities kept are known. `gradient` (unknowns long) is changed: what is left of it, rounding alone where
  /// the point is optimal.
  void multipliers(std::span<const double> of_kept, std::span<double> gradient, Multipliers &into) {
    back_.find(*problem_, stages_, blocks_, left_, of_kept, gradient, into, count_);
  }

private:
  void order(std::span<const RowName> rows, std::vector<RowName> &ordered);
  bool hold_block(int block, int first_row, int end_row);
  void keep_shared_rows(int first_row);
  void meet_bounds(const Stage &stage, std::span<const double> rests);

  const Problem *problem_ = nullptr;
  bool nearly_parallel_ = false;
  Freedom freedom_;
  LeftRows left_;
  Reused<Stage> stages_;
  BlockEliminations blocks_;
  std::int64_t held_entries_ = 0; ///< of the blocks' equalities
  HeldMultipliers back_;
  WorkCounter count_;
  // Room to work in, filled anew for each stage.
  std::vector<std::pair<int, int>> order_; ///< block, index
  ReducedRows reduced_;                    ///< the stage's rows
  BlockElimination::Room room_;
  std::vector<double> rests_, border_, towards_;
};

} // namespace gatherwright::optimum
