// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/active_set.hpp"
#include "solver/optimum/held_inequalities.hpp"
#include "solver/optimum/magnitude.hpp"
#include "solver/optimum/problem.hpp"
#include "solver/optimum/reduction.hpp"
#include "solver/optimum/row_name.hpp"
#include "solver/optimum/work.hpp"

#include <vector>

namespace gatherwright::optimum {

/// What a level must keep, over the reduced unknowns, and of each inequality among it which of the problem's rows it
/// is: held equalities first, then level 0's inequalities that no level holds, then limits that none holds.
class LevelConstraints {
public:
  enum class LimitsAre { left_out, soft, hard };

  /// `point_holds`: the point keeps all that must hold. What it misses in a row is then rounding, and the row asks for
  /// no more than the point gives: so the point itself always solves what is asked of later levels.
  void build(const Problem &problem, const HeldInequalities &held, LimitsAre limits, bool point_holds,
             Reduction &reduction, Magnitude &magnitude, const WorkCounter &count);

  const Constraints &rows() const { return constraints_; }

  /// Whether an inequality among the constraints may not be missed.
  bool is_hard_inequality(int constraint) const {
    return constraint >= constraints_.equalities && constraint < constraints_.soft_from;
  }

  /// The row of an inequality: of at_least, or of the limits.
  RowName name_of(int constraint) const {
    const int inequality = constraint - constraints_.equalities;
    return {inequality < first_limit_ ? RowName::Set::at_least : RowName::Set::limits, 0, row_[inequality]};
  }

private:
  void add_open(const Rows &rows, const HeldInequalities &held, std::span<const int> held_by, Reduction &reduction);

  Constraints constraints_;
  std::vector<int> row_; ///< of each inequality
  int first_limit_ = 0;  ///< of the inequalities
};

} // namespace gatherwright::optimum
