// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/problem.hpp"
#include "solver/optimum/reduction.hpp"

#include <utility>
#include <vector>

namespace gatherwright::optimum {

/// A problem's equalities eliminated, whatever their bounds: the start of every problem that differs from it only in
/// bounds, in other rows, or in equalities after these. It is not altered by those that start from it, so that threads
/// may share it.
class Elimination {
public:
  /// What is done is counted into `work`.
  explicit Elimination(const Problem &problem, Work *work = nullptr);

  /// False: it was too much work, or takes too much room, and nothing can start from here.
  bool done() const { return done_; }

  /// Whether a problem can start from here: unknowns, blocks and coefficients of its first equalities are the same, and
  /// no block of it touches a shared unknown that it did not touch.
  bool suits(const Problem &problem) const;

  int equalities() const { return equal_.size(); }
  const Reduction &reduction() const { return reduction_; }

private:
  using Touch = std::pair<int, int>; ///< block, shared unknown

  int block_of(std::span<const Term> row) const;
  void add_touches(const Rows &rows);
  bool touches_no_more(const Rows &rows, int first_row) const;

  int unknowns_ = 0;
  std::vector<int> block_ends_;
  Rows equal_;
  std::vector<int> block_of_unknown_; ///< -1: shared
  std::vector<Touch> touches_;        ///< ascending
  Reduction reduction_;
  bool done_ = false;
};

} // namespace gatherwright::optimum
