// SPDX-License-Identifier: GPL-3.0-or-later
#include "allot/allotment.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace gatherwright::allot {

namespace {

using optimum::Problem;
using optimum::Solution;
using optimum::Solver;
using optimum::Status;

/// A length this near to a step, in steps, is on it, and one this near to half way between two is half way.
constexpr double on_step = 1e-6;

/// A limit is passed no further where it is by this share of the numbers in it at most.
constexpr double no_further = 1e-9;

/// Rows compared in pairs, at most.
constexpr std::size_t most_compared = 1000;

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

bool is_point(const Solution &solution) {
  return solution.status != Status::conflict && solution.status != Status::indistinct;
}

double level_one(const Solution &solution) {
  double sum = 0;
  for (const double violation : solution.violation)
    sum += violation * violation;
  return sum;
}

} // namespace

Allotment allot(const Scheme &scheme, const Tape &tape, Solver &solver, const optimum::Elimination *start) {
  Allotment made;
  std::optional<optimum::Elimination> own;
  if (!start || !start->suits(scheme.problem)) start = &own.emplace(scheme.problem);
  Solution best = solver.solve(scheme.problem, Solver::Wanted::everything, start);
  if (best.status == Status::conflict) {
    made.conflict = true;
    return made;
  }
  if (best.status == Status::indistinct) {
    made.indistinct = true;
    return made;
  }
  made.proved = best.status == Status::optimal;
  made.certificate = solver.residuals();
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
        tried[k] = solver.solve(held, Solver::Wanted::point, start);
        if (is_point(tried[k]) && passes_no_further(held, tried[k], best)) chosen = k;
      }
      if (chosen < 0 && level_one(best) > 0)
        for (int k = 0; k < 2; ++k)
          if (is_point(tried[k]) && (chosen < 0 || level_one(tried[k]) < level_one(tried[chosen]))) chosen = k;
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
  // No length is below 0 but by rounding.
  for (std::vector<double> *unknowns : {&made.exact, &made.unknowns})
    for (double &x : *unknowns)
      x = x > 0 ? x : 0;
  return made;
}

namespace {

/// The cosine of two rows, without its sign; 0 where one has no terms.
double cosine(std::span<const optimum::Term> a, std::span<const optimum::Term> b) {
  double product = 0;
  double square_a = 0;
  double square_b = 0;
  for (const optimum::Term &term : a) {
    square_a += term.value * term.value;
    for (const optimum::Term &other : b)
      if (other.column == term.column) product += term.value * other.value;
  }
  for (const optimum::Term &term : b)
    square_b += term.value * term.value;
  return square_a > 0 && square_b > 0 ? std::abs(product) / std::sqrt(square_a * square_b) : 0;
}

bool says_a_length(const Condition &condition) {
  return condition.kind != Condition::Kind::long_adds_up && condition.kind != Condition::Kind::band_adds_up &&
         condition.kind != Condition::Kind::flat;
}

} // namespace

std::optional<std::array<Condition, 2>> nearest_to_parallel(const Scheme &scheme) {
  std::vector<std::pair<int, std::span<const optimum::Term>>> rows; // condition, row
  for (int c = 0; c < static_cast<int>(scheme.conditions.size()); ++c) {
    if (!says_a_length(scheme.conditions[c])) continue;
    for (const int i : scheme.condition_rows[c].equal)
      rows.emplace_back(c, scheme.problem.equal.row(i));
    for (const int i : scheme.condition_rows[c].at_least)
      rows.emplace_back(c, scheme.problem.at_least.row(i));
  }
  std::optional<std::array<Condition, 2>> nearest;
  double most = -1;
  for (std::size_t i = 0; i < rows.size() && i < most_compared; ++i)
    for (std::size_t j = i + 1; j < rows.size() && j < most_compared; ++j) {
      const double parallel = cosine(rows[i].second, rows[j].second);
      if (parallel <= most) continue;
      most = parallel;
      nearest = {scheme.conditions[rows[i].first], scheme.conditions[rows[j].first]};
    }
  return nearest;
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
