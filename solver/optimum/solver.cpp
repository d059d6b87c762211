// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/solver.hpp"

#include "solver/optimum/carried.hpp"
#include "solver/optimum/tolerances.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright::optimum {

namespace {

/// Multiplications of wide numbers that one solver may spend: about a second's.
constexpr long most_work = 20'000'000;

/// Steps of work that a multiplication of wide numbers counts for.
constexpr long steps_of_wide = 40;

/// The size of a row's terms at x, and of its bound.
double numbers(const Rows &rows, int i, const std::vector<double> &x) {
  double size = std::abs(rows.bound[i]);
  for (const Term &term : rows.row(i))
    size += std::abs(term.value * x[term.column]);
  return size;
}

/// The heaviest of a level's multipliers, each times its row's numbers.
double heaviest(const Problem &problem, const Solution &solution, const Multipliers &by) {
  double most = 0;
  const auto look = [&](const Rows &rows, const std::vector<double> &multipliers) {
    for (std::size_t i = 0; i < multipliers.size(); ++i)
      if (multipliers[i] != 0)
        most = std::max(most, std::abs(multipliers[i]) * numbers(rows, static_cast<int>(i), solution.x));
  };
  look(problem.equal, by.equal);
  look(problem.at_least, by.at_least);
  look(problem.limits, by.limits);
  for (int level = 0; level < wish_levels; ++level)
    look(problem.wishes[level], by.wishes[level]);
  return most;
}

/// Whether some level's multipliers are out of all proportion to what they balance.
bool nearly_cancels(const Problem &problem, const Solution &solution) {
  for (int level = 0; level <= wish_levels; ++level) {
    const Rows &rows = level == 0 ? problem.limits : problem.wishes[level - 1];
    double square = 0;
    for (int i = 0; i < rows.size(); ++i) {
      const double size = numbers(rows, i, solution.x);
      square += size * size;
    }
    if (heaviest(problem, solution, solution.levels[level]) > tolerance::cancelling * square) return true;
  }
  return false;
}

bool keeps_limits(const Problem &problem, const Solution &solution) {
  for (int i = 0; i < problem.limits.size(); ++i) {
    double missed = problem.limits.bound[i] - solution.violation[i];
    for (const Term &term : problem.limits.row(i))
      missed -= term.value * solution.x[term.column];
    if (!(missed <= tolerance::certified * (numbers(problem.limits, i, solution.x) + solution.violation[i])))
      return false;
  }
  return true;
}

} // namespace

bool contradicts(const Problem &problem, const Multipliers &multipliers, double close) {
  std::vector<double> sum(problem.unknowns, 0.0);
  std::vector<double> size(problem.unknowns, 0.0);
  double bound = 0;
  double bounds = 0;
  const auto add = [&](const Rows &rows, const std::vector<double> &by) {
    for (std::size_t i = 0; i < by.size(); ++i) {
      if (by[i] == 0) continue;
      for (const Term &term : rows.row(static_cast<int>(i))) {
        sum[term.column] += by[i] * term.value;
        size[term.column] += std::abs(by[i] * term.value);
      }
      bound += by[i] * rows.bound[i];
      bounds += std::abs(by[i] * rows.bound[i]);
    }
  };
  add(problem.equal, multipliers.equal);
  add(problem.at_least, multipliers.at_least);
  double greatest = 0;
  for (const double s : size)
    greatest = std::max(greatest, s);
  for (std::size_t c = 0; c < sum.size(); ++c)
    if (!(std::abs(sum[c]) <= close * size[c] || std::abs(sum[c]) <= close * close * greatest)) return false;
  return bound > tolerance::bounds_left * bounds;
}

Solver::Solver() : budget_(most_work) {}

bool Solver::trusted(const Problem &problem, Wanted wanted, const Solution &solution) {
  if (solution.status == Status::conflict)
    return contradicts(problem, solution.conflict, tolerance::contradiction_cancels);
  if (wanted == Wanted::point)
    return solution.status == Status::optimal && check_feasible(problem, solution.x) <= tolerance::certified &&
           keeps_limits(problem, solution);
  residuals_ = check(problem, solution);
  return solution.status == Status::optimal && residuals_.largest() <= tolerance::certified &&
         !nearly_cancels(problem, solution);
}

const Solution &Solver::solve(const Problem &problem, Wanted wanted, const Elimination *start) {
  const bool scales = scaling_.helps(problem);
  const Solution *found = nullptr;
  if (scales) {
    scaled_ = scaling_.scaled(problem);
    solution_ = hierarchy_.solve(scaled_, wanted);
    scaling_.unscale(solution_);
    found = &solution_;
  } else {
    found = &hierarchy_.solve(problem, wanted, start);
  }
  if (found->status == Status::too_much_work) return *found;
  if (!scaling_.weighs_too_differently() && !hierarchy_.met_nearly_parallel() && trusted(problem, wanted, *found))
    return *found;
  if (!scales) {
    solution_ = *found;
    scaling_.find(problem);
    scaled_ = scaling_.scaled(problem);
  }
  return carry(problem, wanted);
}

const Solution &Solver::solve_near(const Problem &problem, const WarmStart &warm, const Elimination &start) {
  if (!scaling_.helps(problem)) {
    const Solution &found = hierarchy_.solve(problem, Wanted::point, &start, &warm);
    if (found.status == Status::too_much_work ||
        (!hierarchy_.met_nearly_parallel() && trusted(problem, Wanted::point, found)))
      return found;
  }
  return solve(problem, Wanted::point, &start);
}

const Solution &Solver::carry(const Problem &problem, Wanted wanted) {
  ++carried_;
  Solution carried;
  long budget = budget_;
  if (Work *work = hierarchy_.work()) budget = std::min(budget, static_cast<long>(work->left() / steps_of_wide));
  const long before = budget;
  const bool done = solve_carried(scaled_, wanted == Wanted::everything, budget, carried);
  budget_ -= before - budget;
  if (Work *work = hierarchy_.work()) work->add(steps_of_wide * (before - budget));
  if (done) {
    scaling_.unscale(carried);
    if (carried.status == Status::conflict || carried.status == Status::indistinct ||
        check_feasible(problem, carried.x) <= tolerance::certified) {
      solution_ = std::move(carried);
      if (solution_.status == Status::optimal && wanted == Wanted::everything) {
        residuals_ = check(problem, solution_);
        if (!(residuals_.largest() <= tolerance::certified)) solution_.status = Status::stalled;
      }
      return solution_;
    }
  }
  if (solution_.status == Status::conflict && !hierarchy_.met_nearly_parallel() &&
      contradicts(problem, solution_.conflict, tolerance::contradiction_cancels_roughly))
    return solution_;
  // What is too large for more digits stands as it was found, where its own proof holds.
  if (solution_.status == Status::optimal && !hierarchy_.met_nearly_parallel() && !scaling_.weighs_too_differently() &&
      (wanted == Wanted::point
           ? check_feasible(problem, solution_.x) <= tolerance::certified && keeps_limits(problem, solution_)
           : residuals_.largest() <= tolerance::certified))
    return solution_;
  // What double precision found is good for what it keeps, and no more.
  const bool keeps =
      solution_.status != Status::conflict && check_feasible(problem, solution_.x) <= tolerance::certified;
  solution_.status = keeps ? Status::stalled : Status::indistinct;
  return solution_;
}

std::optional<bool> Solver::feasible(const Problem &problem) {
  if (!scaling_.helps(problem) && hierarchy_.feasible(problem) && !hierarchy_.met_nearly_parallel()) return true;
  const Problem level_0{problem.unknowns, problem.block_ends, problem.equal, problem.at_least, {}, {}};
  const Status status = solve(level_0, Wanted::point).status;
  if (status == Status::indistinct) return std::nullopt;
  return status != Status::conflict;
}

} // namespace gatherwright::optimum
