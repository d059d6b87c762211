// SPDX-License-Identifier: GPL-3.0-or-later
#include "allot/allotment.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace gatherwright::allot {

namespace {

using optimum::Hierarchy;
using optimum::Problem;
using optimum::Solution;
using optimum::Status;

/// A length this near to a step, in steps, is on it, and one this near to half way between two is half way.
constexpr double on_step = 1e-6;

/// A limit is passed no further where it is by this share of the numbers in it at most.
constexpr double no_further = 1e-9;

/// The two steps to try, the nearer first (a tie: the lower).
std::array<double, 2> steps_beside(double value, double step) {
  const double steps = value / step;
  const double nearest = std::round(steps);
  if (std::abs(steps - nearest) <= on_step) return {nearest * step, (nearest + (steps < nearest ? -1 : 1)) * step};
  const double below = std::floor(steps);
  const double above = below + 1;
  if (steps - below <= 0.5 + on_step) return {below * step, above * step};
  return {above * step, below * step};
}

bool passes_no_further(const Problem &problem, const Solution &held, const Solution &free) {
  for (int i = 0; i < problem.limits.size(); ++i) {
    double numbers = std::abs(problem.limits.bound[i]);
    for (const optimum::Term &term : problem.limits.row(i))
      numbers += std::abs(term.value * held.x[term.column]);
    if (held.violation[i] > free.violation[i] + no_further * numbers) return false;
  }
  return true;
}

double level_one(const Solution &solution) {
  double sum = 0;
  for (const double violation : solution.violation)
    sum += violation * violation;
  return sum;
}

} // namespace

Allotment allot(const Scheme &scheme, const Tape &tape, Hierarchy &solver, const optimum::Elimination *start) {
  Allotment made;
  std::optional<optimum::Elimination> own;
  if (!start || !start->suits(scheme.problem)) start = &own.emplace(scheme.problem);
  Solution best = solver.solve(scheme.problem, Hierarchy::Wanted::everything, start);
  if (best.status == Status::conflict) {
    made.conflict = true;
    return made;
  }
  made.certificate = optimum::check(scheme.problem, best);
  made.exact = best.x;
  made.loose = best.loose;
  made.off_tape.assign(scheme.free_lengths.size(), 0);
  if (!scheme.free_lengths.empty()) {
    Problem held = scheme.problem;
    for (std::size_t i = 0; i < scheme.free_lengths.size(); ++i) {
      const int column = scheme.column_of_length[scheme.free_lengths[i]];
      const std::array<optimum::Term, 1> row{{{column, 1.0}}};
      const int at = held.equal.size();
      held.equal.add(row, 0);
      std::array<Solution, 2> tried;
      int chosen = -1;
      const std::array<double, 2> steps = steps_beside(best.x[column], tape.step.mm);
      for (int k = 0; k < 2 && chosen < 0; ++k) {
        held.equal.bound[at] = steps[k];
        tried[k] = solver.solve(held, Hierarchy::Wanted::point, start);
        if (tried[k].status != Status::conflict && passes_no_further(held, tried[k], best)) chosen = k;
      }
      if (chosen < 0 && level_one(best) > 0)
        for (int k = 0; k < 2; ++k)
          if (tried[k].status != Status::conflict && (chosen < 0 || level_one(tried[k]) < level_one(tried[chosen])))
            chosen = k;
      if (chosen < 0) {
        made.off_tape[i] = 1;
        held.equal.bound[at] = best.x[column];
        continue;
      }
      held.equal.bound[at] = steps[chosen];
      best = std::move(tried[chosen]);
      best.x[column] = steps[chosen];
    }
    made.certificate.feasibility =
        std::max(made.certificate.feasibility, optimum::check_feasible(scheme.problem, best.x));
  }
  made.unknowns = std::move(best.x);
  return made;
}

NamedConflict named_conflict(const Scheme &scheme) {
  const optimum::Conflict found = optimum::irreducible_conflict(scheme.problem, scheme.condition_rows);
  NamedConflict named;
  named.apart = found.apart;
  for (const int c : found.conditions)
    named.conditions.push_back(scheme.conditions[c]);
  return named;
}

} // namespace gatherwright::allot
