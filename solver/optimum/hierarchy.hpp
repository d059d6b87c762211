// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/elimination.hpp"
#include "solver/optimum/guessed_level.hpp"
#include "solver/optimum/held_inequalities.hpp"
#include "solver/optimum/level_constraints.hpp"
#include "solver/optimum/level_multipliers.hpp"
#include "solver/optimum/loose_unknowns.hpp"
#include "solver/optimum/magnitude.hpp"
#include "solver/optimum/problem.hpp"
#include "solver/optimum/proximal_descent.hpp"
#include "solver/optimum/reduction.hpp"
#include "solver/optimum/warm_start.hpp"

namespace gatherwright::optimum {

/// Solves problems level by level. Keeps its room between solves, so that problems of one shape are solved without
/// growing it.
///
/// Each level is a least squares problem under what earlier levels hold, solved by the dual active set method, with a
/// proximal term that vanishes where the level leaves unknowns open.
///
/// What a level has gained is then held: its wishes as they are at the point, and the inequalities whose multiplier is
/// clearly above 0, since none of them can be left without losing. A multiplier below 0 that a later level gives such
/// an inequality is made good by the earlier level's own balance, whose wishes may have multipliers of any sign.
class Hierarchy {
public:
  /// What of a solution is asked for: without the multipliers and `loose` it costs about half.
  enum class Wanted { everything, point };

  /// Counts what it does from now on; once that is more than may be, it ends with Status::too_much_work.
  void count_into(Work *work);
  Work *work() const { return count_.work(); }

  /// `start`, where given, must suit the problem. `warm` is of use where a point alone is wanted.
  const Solution &solve(const Problem &problem, Wanted wanted = Wanted::everything, const Elimination *start = nullptr,
                        const WarmStart *warm = nullptr);

  /// Of the last solution.
  const Binding &binding() const { return binding_; }

  /// Only whether level 0 can hold. `problem`'s other levels are not looked at.
  bool feasible(const Problem &problem);

  /// Whether rows that decided the last answer were nearly parallel: few of its digits may be right.
  bool met_nearly_parallel() const {
    return reduction_.met_nearly_parallel() || descent_.active_set().met_nearly_parallel();
  }

private:
  using Outcome = ActiveSet::Outcome;
  using LimitsAre = LevelConstraints::LimitsAre;

  /// How far the levels of one problem have come.
  struct Progress {
    const Problem &problem;
    bool everything = false; ///< is wanted
    const WarmStart *warm = nullptr;
    bool point_holds = false;    ///< the point keeps everything that must hold: what it misses of a row is rounding
    bool limits_settled = false; ///< what no level holds of the limits can hold
    bool regular = false;        ///< the level solved last left nothing open
    bool stalled = false;        ///< some search came to no end
    int last_level = -1;         ///< of wishes, whose multipliers were found last
    double size_of_gradient = 0; ///< of that level
  };

  bool begin(const Problem &problem, const Elimination *start);
  void build_constraints(const Progress &progress, LimitsAre limits);
  void move_point(Progress &progress);
  Outcome solve_level(const Rows &wishes, Progress &progress);
  Status settle_near(const Rows &near, const Rows &wishes, Progress &progress);
  Status settle_here(const Rows &wishes, Progress &progress);
  bool begins_far(const Rows &wishes, const Progress &progress) const;
  bool is_guessed(int level, const Progress &progress);
  bool solve_guessed(int level, Progress &progress);
  bool hold_guessed(int level, Progress &progress);
  Status contradiction(const Problem &problem);
  void find_violations(const Problem &problem);
  Status settle_limits(const Rows &wishes, Progress &progress);
  bool hold_with_bound(int level, double size_of_gradient);
  bool hold_violated_limits(const Problem &problem, double size_of_gradient);
  void name_wishes(const Problem &problem, int level);
  bool hold_level(const Problem &problem, int level, double size_of_gradient);
  double find_multipliers(const Progress &progress, int level);
  Status solve_anew(const Rows &wishes, Progress &progress);
  Status solve_levels(Progress &progress);
  bool find_loose(const Progress &progress);
  void note_binding(int level, const Progress &progress);

  Solution solution_;
  Reduction reduction_;
  ProximalDescent descent_;
  LevelConstraints constraints_;
  HeldInequalities held_;
  LevelMultipliers multipliers_;
  LooseUnknowns loose_;
  GuessedLevel guessed_;
  Binding binding_;
  Magnitude magnitude_;
  std::vector<RowName> to_hold_, bound_; ///< room to work in: rows to be held next, and those that bind a level
  WorkCounter count_;
};

} // namespace gatherwright::optimum
