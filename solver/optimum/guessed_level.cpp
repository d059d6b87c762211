// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/guessed_level.hpp"

#include "solver/optimum/tolerances.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright::optimum {

namespace {

/// So often rows are let go; a guess that is still wrong then was a bad one.
constexpr int most_rounds = 10;

double length_of(std::span<const Term> row) {
  double square = 0;
  for (const Term &term : row)
    square += term.value * term.value;
  return std::sqrt(square);
}

bool is_held(const HeldInequalities &held, const RowName &row) {
  return (row.set == RowName::Set::at_least ? held.at_least() : held.limits())[row.row] >= 0;
}

} // namespace

void append_binding(const ActiveSet &active_set, const LevelConstraints &constraints, double size_of_gradient,
                    std::vector<RowName> &into) {
  const double clear = tolerance::clear_multiplier * size_of_gradient;
  for (const auto &[constraint, multiplier] : active_set.multipliers())
    if (constraints.is_hard_inequality(constraint) && multiplier * constraints.rows().rows[constraint].norm > clear)
      into.push_back(constraints.name_of(constraint));
}

bool GuessedLevel::solve(const Before &before, int level, std::span<const RowName> guess, Magnitude &magnitude,
                         ProximalDescent &descent, const WorkCounter &count) {
  guess_.assign(guess.begin(), guess.end());
  std::erase_if(guess_, [&](const RowName &row) { return is_held(before.held, row); });
  for (int round = 0; round < most_rounds; ++round) {
    const Held held = solve_held(before, level, magnitude, descent, count);
    if (held == Held::no_use) return false;
    if (held == Held::optimal && !let_go_unbound(before.problem, level, magnitude.size(), descent)) return true;
    if (held == Held::contradicts && !let_go_contradicting(before.problem, descent)) return false;
  }
  return false;
}

/// With the guess held.
GuessedLevel::Held GuessedLevel::solve_held(const Before &before, int level, Magnitude &magnitude,
                                            ProximalDescent &descent, const WorkCounter &count) {
  reduction_ = before.reduction;
  held_ = before.held;
  count.add(static_cast<std::int64_t>(before.reduction.size()));
  for (const RowName &row : guess_)
    held_.hold(row, level + 1);
  if (!reduction_.hold(guess_, Reduction::Hold::at_bound)) return Held::no_use;
  constraints_.begin(before.problem);
  constraints_.build(before.problem, held_, LevelConstraints::LimitsAre::hard, false, reduction_, magnitude, count);
  const auto [outcome, regular] =
      descent.meet_wishes(before.problem.wishes[level], constraints_.rows(), reduction_, magnitude);
  if (outcome == ProximalDescent::Outcome::infeasible) return Held::contradicts;
  if (outcome != ProximalDescent::Outcome::optimal) return Held::no_use;
  regular_ = regular;
  reduction_.move(descent.active_set().point());
  return Held::optimal;
}

/// Of a guessed row, as found last.
double GuessedLevel::multiplier(const RowName &row) const {
  return (row.set == RowName::Set::at_least ? found_.at_least : found_.limits)[row.row];
}

/// Lets go what of the guess does not bind; false: there is none. Else what else binds is guessed too.
bool GuessedLevel::let_go_unbound(const Problem &problem, int level, double magnitude, const ProximalDescent &descent) {
  const double size = multipliers_.find_gradient(problem, problem.wishes[level], reduction_.point(), magnitude);
  size_multipliers(problem, level, found_);
  multipliers_.give(problem, constraints_, descent.active_set().multipliers(), size, reduction_, found_);
  const double clear = tolerance::clear_multiplier * size;
  const std::size_t let_go = std::erase_if(guess_, [&](const RowName &row) {
    return !(multiplier(row) * length_of(rows_of(problem, row).row(row.row)) > clear);
  });
  others_.clear();
  append_binding(descent.active_set(), constraints_, size, others_);
  if (let_go == 0) return false;
  guess_.insert(guess_.end(), others_.begin(), others_.end());
  return true;
}

/// Not all that is held can be: of the rows that contradict each other, lets go those of the guess that would have to
/// be more than their bound. False: there is none.
bool GuessedLevel::let_go_contradicting(const Problem &problem, const ProximalDescent &descent) {
  size_multipliers(problem, wish_levels, found_);
  const double size = multipliers_.no_gradient(problem);
  multipliers_.give(problem, constraints_, descent.active_set().multipliers(), size, reduction_, found_);
  double greatest = 0;
  for (const RowName &row : guess_)
    greatest = std::max(greatest, std::abs(multiplier(row)));
  return std::erase_if(
             guess_, [&](const RowName &row) { return multiplier(row) < -tolerance::clear_multiplier * greatest; }) > 0;
}

} // namespace gatherwright::optimum
