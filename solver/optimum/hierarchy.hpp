// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "optimum/problem.hpp"
#include "optimum/reduction.hpp"

namespace gatherwright::optimum {

/// Solves problems level by level. Keeps its room between solves, so that problems of one shape are solved without
/// growing it.
///
/// Each level is a least squares problem under what earlier levels hold, solved by the dual active set method. Where a
/// level leaves unknowns open, a proximal term centred on the point makes it strictly convex; the centre then moves to
/// the solution until it stands still, so the term vanishes and no weight is left in the answer (Rockafellar, SIAM J.
/// Control Optim. 14 (1976) 877-898: for such problems the centre comes to rest after finitely many moves).
class Hierarchy {
public:
  /// What of a solution is asked for: without the multipliers and `loose` it costs about half.
  enum class Wanted { everything, point };

  const Solution &solve(const Problem &problem, Wanted wanted = Wanted::everything);

  /// Only whether level 0 can hold. `problem`'s other levels are not looked at.
  bool feasible(const Problem &problem);

private:
  enum class LimitsAre { left_out, wanted };

  void build_constraints(LimitsAre limits);
  ActiveSet::Outcome solve_level(const Rows &wishes);
  void insert_wishes();
  double size_of_gradient(const Rows &wishes);
  void give_multipliers(const Rows &wishes, Multipliers &into);
  void size_multipliers(Multipliers &into, int level) const;
  bool meet_limits_as_far_as_possible();
  bool find_conflict();
  void hold_level(int level);
  void find_loose();
  double size_of_numbers() const;

  const Problem *problem_ = nullptr;
  Solution solution_;
  Reduction reduction_;
  ArrowFactor factor_;
  ActiveSet active_set_;
  Constraints constraints_;
  ReducedRows reduced_; ///< of at_least and limits
  ReducedRows reduced_wishes_;
  std::vector<RowName> names_; ///< of the constraints after the held ones
  std::vector<double> zero_, step_, gradient_, held_multipliers_;
  double magnitude_ = 1;
};

} // namespace gatherwright::optimum
