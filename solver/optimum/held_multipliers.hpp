// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/block_eliminations.hpp"
#include "solver/optimum/left_rows.hpp"
#include "solver/optimum/problem.hpp"
#include "solver/optimum/reused.hpp"
#include "solver/optimum/stage.hpp"
#include "solver/optimum/work.hpp"

#include <span>
#include <vector>

namespace gatherwright::optimum {

/// Gives a gradient back to the held rows, from the last stage to the first: a row's multiplier follows from what is
/// left of the gradient along what the row decided, once all that were decided later have theirs.
class HeldMultipliers {
public:
  /// `of_kept`: multipliers of the rows left that are kept, in their order. The gradient (unknowns long) is changed:
  /// what is left of it is rounding alone, where it is a sum of multiples of held rows.
  void find(const Problem &problem, const Reused<Stage> &stages, const BlockEliminations &blocks, const LeftRows &left,
            std::span<const double> of_kept, std::span<double> gradient, Multipliers &into, const WorkCounter &count);

private:
  void settle(const LeftRows &left, int row, double sign);
  void find_fixing(const Stage &stage, const LeftRows &left, std::span<const double> gradient);

  std::vector<double> of_left_;   ///< multipliers of the rows left
  std::vector<double> of_shared_; ///< of each shared unknown: what of the gradient rows left settle, whose own rows
                                  ///< have not got their multipliers yet
  BlockElimination::Room room_;   ///< to work in
};

} // namespace gatherwright::optimum
