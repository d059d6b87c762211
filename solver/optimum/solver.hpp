// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/certificate.hpp"
#include "solver/optimum/hierarchy.hpp"
#include "solver/optimum/scaling.hpp"
#include "solver/optimum/warm_start.hpp"

#include <optional>

namespace gatherwright::optimum {

/// Solves problems as Hierarchy does, and looks at what came out: an answer that does not keep what it must, or that
/// its multipliers do not prove, a contradiction that does not cancel, or a search without end is solved again with
/// twice the digits. Problems whose numbers are far apart are scaled first. Keeps its room between solves; what it has
/// spent on digits counts over all of them.
///
/// A status of `optimal` or `conflict` has been checked as far as what was asked for allows. `indistinct`: the rows of
/// level 0 are too nearly parallel for the digits that there are, and x is nothing. `stalled`: x keeps level 0, but
/// that it is best is not proved.
class Solver {
public:
  using Wanted = Hierarchy::Wanted;

  Solver();

  /// Counts what it does from now on; once that is more than may be, it ends with Status::too_much_work.
  void count_into(Work *work) { hierarchy_.count_into(work); }
  Work *work() const { return hierarchy_.work(); }

  /// `start`, where given, must suit the problem.
  const Solution &solve(const Problem &problem, Wanted wanted = Wanted::everything, const Elimination *start = nullptr);

  /// The point alone, of a problem that differs little from one that is solved. What is found there is looked at as
  /// any answer is; one that does not stand that is found anew.
  const Solution &solve_near(const Problem &problem, const WarmStart &warm, const Elimination &start);

  /// Of the last solution.
  const Binding &binding() const { return hierarchy_.binding(); }

  /// Whether level 0 can hold; nothing where that cannot be told.
  std::optional<bool> feasible(const Problem &problem);

  /// Of the last solution, where everything was asked for and it is no conflict.
  const Residuals &residuals() const { return residuals_; }

  /// How many problems were solved with twice the digits.
  int carried() const { return carried_; }

private:
  bool trusted(const Problem &problem, Wanted wanted, const Solution &solution);
  const Solution &carry(const Problem &problem, Wanted wanted);

  Hierarchy hierarchy_;
  Scaling scaling_;
  Problem scaled_;
  Solution solution_; ///< of a problem that was scaled or carried
  Residuals residuals_;
  long budget_;
  int carried_ = 0;
};

/// Whether the rows of level 0, so multiplied, cancel to the share `close` of their terms while their bounds do not:
/// then they cannot all hold.
bool contradicts(const Problem &problem, const Multipliers &multipliers, double close);

} // namespace gatherwright::optimum
