// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/active_set.hpp"
#include "solver/optimum/elimination.hpp"
#include "solver/optimum/problem.hpp"
#include "solver/optimum/reduction.hpp"

namespace gatherwright::optimum {

/// Solves problems level by level. Keeps its room between solves, so that problems of one shape are solved without
/// growing it.
///
/// Each level is a least squares problem under what earlier levels hold, solved by the dual active set method. Where a
/// level leaves unknowns open, a proximal term centred on the point makes it strictly convex; the centre then moves to
/// the solution until it stands still, so the term vanishes and no weight is left in the answer (Rockafellar, SIAM J.
/// Control Optim. 14 (1976) 877-898: for such problems the centre comes to rest after finitely many moves).
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

  /// `start`, where given, must suit the problem.
  const Solution &solve(const Problem &problem, Wanted wanted = Wanted::everything, const Elimination *start = nullptr);

  /// Only whether level 0 can hold. `problem`'s other levels are not looked at.
  bool feasible(const Problem &problem);

  /// Whether rows that decided the last answer were nearly parallel: few of its digits may be right.
  bool met_nearly_parallel() const { return reduction_.met_nearly_parallel() || active_set_.met_nearly_parallel(); }

private:
  enum class LimitsAre { left_out, soft, hard };

  bool begin(const Problem &problem, const Elimination *start);
  void build_constraints(LimitsAre limits);
  RowName name_of(int inequality) const;
  ActiveSet::Outcome solve_level(const Rows &wishes);
  ActiveSet::Outcome move_centre_to_rest(double weight, double greatest_norm);
  double factor_wishes(double greatest_norm);
  void factor_with_weight(double weight, std::span<const double> centre);
  bool meet_limits_as_far_as_possible();
  bool give_contradiction();
  const Solution &too_much_work();
  bool hold_violated_limits();
  double residual(const Rows &rows, int row) const;
  void add_to_gradient(const Rows &rows, int row, double factor);
  void add_residual_to_gradient(const Rows &rows, int row, double off);
  void find_gradient(const Rows &wishes, bool limits);
  void give_multipliers(Multipliers &into);
  void size_multipliers(Multipliers &into, int level) const;
  void make_good(int level);
  void name_clearly_bound(int level);
  bool hold_level(int level);
  bool find_loose();
  ActiveSet::Outcome draw(std::span<const double> towards);
  void mark_moved();
  bool wishes_after(int level) const;
  void look_at_size(const ReducedRows &rows);

  const Problem *problem_ = nullptr;
  Solution solution_;
  Reduction reduction_;
  ArrowFactor factor_;
  ActiveSet active_set_;
  Constraints constraints_;
  ReducedRows reduced_wishes_;
  Rows no_wishes_;
  std::vector<int> row_of_constraint_; ///< of the constraints after the held ones: rows of at_least, then of limits
  int first_limit_ = 0;
  std::vector<RowName> to_hold_;
  std::vector<int> bound_at_least_; ///< of each row of at_least: the level that holds it, -1: none
  std::vector<int> bound_limit_;
  std::vector<double> centre_, step_, last_step_, moved_, gradient_, held_multipliers_, towards_, displacement_;
  std::array<double, wish_levels + 1> share_{};
  WorkCounter count_;
  double magnitude_ = 1;
  double size_of_gradient_ = 0;
  bool point_holds_ = false; ///< the point keeps everything that must hold: a row it misses, it misses by rounding
  bool any_bound_ = false;   ///< some inequality is held by a level
  bool regular_ = false;     ///< the last level left nothing open
};

} // namespace gatherwright::optimum
