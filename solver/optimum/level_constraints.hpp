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
/// Inequalities in which nothing is open any more, and which hold, are left out from then on.
class LevelConstraints {
public:
  enum class LimitsAre { left_out, soft, hard };

  /// Nothing is known of which inequalities are closed.
  void begin(const Problem &problem);

  /// Of the problem it began with, whose rows are held, and unknowns fixed, one stage after another. `point_holds`: the
  /// point keeps all that must hold. What it misses in a row is then rounding, and the row asks for no more than the
  /// point gives: so the point itself always solves what is asked of later levels.
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
    const int first_limit = static_cast<int>(at_least_.size());
    return inequality < first_limit ? RowName{RowName::Set::at_least, 0, at_least_[inequality]}
                                    : RowName{RowName::Set::limits, 0, limits_[inequality - first_limit]};
  }

private:
  void add_open(const Rows &rows, bool any_held, std::span<const int> held_by, bool point_holds, Reduction &reduction,
                Magnitude &magnitude, std::vector<int> &open);

  Constraints constraints_;
  std::vector<int> at_least_, limits_; ///< those that are not closed
};

} // namespace gatherwright::optimum
