// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/held_inequalities.hpp"
#include "solver/optimum/level_constraints.hpp"
#include "solver/optimum/level_multipliers.hpp"
#include "solver/optimum/magnitude.hpp"
#include "solver/optimum/problem.hpp"
#include "solver/optimum/proximal_descent.hpp"
#include "solver/optimum/reduction.hpp"
#include "solver/optimum/row_name.hpp"
#include "solver/optimum/work.hpp"

#include <span>
#include <vector>

namespace gatherwright::optimum {

/// A level of wishes solved from a guess of the inequalities that bind it. These are made equalities, block by block,
/// which costs far less than letting the active set find them one after another. What else binds the active set finds.
/// A guess was wrong of a row that has no multiplier clearly above 0, or that all can hold only where it is more than
/// its bound: it is let go, and the level is solved again.
class GuessedLevel {
public:
  /// What earlier levels have come to.
  struct Before {
    const Problem &problem;
    const HeldInequalities &held;
    const Reduction &reduction;
  };

  /// False: nothing has come of the guess. Else `reduction()` stands at the optimum, and the rows guessed and
  /// `others()` bind it.
  bool solve(const Before &before, int level, std::span<const RowName> guess, Magnitude &magnitude,
             ProximalDescent &descent, const WorkCounter &count);

  /// Whether the level leaves nothing open.
  bool regular() const { return regular_; }

  /// With the rows of the guess held that have not been let go, and these.
  Reduction &reduction() { return reduction_; }
  const HeldInequalities &held() const { return held_; }
  const std::vector<RowName> &guessed() const { return guess_; }

  /// What else binds the level.
  const std::vector<RowName> &others() const { return others_; }

private:
  enum class Held { optimal, contradicts, no_use };

  Held solve_held(const Before &before, int level, Magnitude &magnitude, ProximalDescent &descent,
                  const WorkCounter &count);
  bool let_go_unbound(const Problem &problem, int level, double magnitude, const ProximalDescent &descent);
  bool let_go_contradicting(const Problem &problem, const ProximalDescent &descent);
  double multiplier(const RowName &row) const;

  Reduction reduction_;
  HeldInequalities held_;
  LevelConstraints constraints_;
  LevelMultipliers multipliers_;
  Multipliers found_;
  std::vector<RowName> guess_;
  std::vector<RowName> others_;
  bool regular_ = false;
};

/// Appends the inequalities among the active constraints whose multiplier is clearly above 0, for a level whose
/// gradient is of that size.
void append_binding(const ActiveSet &active_set, const LevelConstraints &constraints, double size_of_gradient,
                    std::vector<RowName> &into);

} // namespace gatherwright::optimum
