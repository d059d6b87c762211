// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/level_multipliers.hpp"

#include "solver/optimum/reduced_rows.hpp"
#include "solver/optimum/tolerances.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace gatherwright::optimum {

namespace {

void add_times(std::vector<double> &to, const std::vector<double> &of, double share) {
  for (std::size_t i = 0; i < of.size(); ++i)
    to[i] += share * of[i];
}

/// Adds an earlier level's balance so many times.
void add_balance(const Problem &problem, std::span<const double> point, int earlier, double share,
                 const Solution &solution, Multipliers &into) {
  const Multipliers &from = solution.levels[earlier];
  add_times(into.equal, from.equal, share);
  add_times(into.at_least, from.at_least, share);
  add_times(into.limits, from.limits, share);
  for (int l = 0; l + 1 < earlier; ++l)
    add_times(into.wishes[l], from.wishes[l], share);
  if (earlier == 0) {
    add_times(into.limits, solution.violation, share);
    return;
  }
  const Rows &wishes = problem.wishes[earlier - 1];
  for (int i = 0; i < wishes.size(); ++i)
    into.wishes[earlier - 1][i] -= share * residual(wishes.row(i), wishes.bound[i], point);
}

} // namespace

void size_multipliers(const Problem &problem, int levels_of_wishes, Multipliers &into) {
  into.equal.assign(problem.equal.size(), 0.0);
  into.at_least.assign(problem.at_least.size(), 0.0);
  into.limits.assign(problem.limits.size(), 0.0);
  for (int i = 0; i < wish_levels; ++i)
    into.wishes[i].assign(i < levels_of_wishes ? problem.wishes[i].size() : 0, 0.0);
}

void leave_out_rounding(const Problem &problem, Multipliers &contradiction) {
  const auto each = [&](const auto &look) {
    look(problem.equal, contradiction.equal);
    look(problem.at_least, contradiction.at_least);
  };
  const auto weight = [](const Rows &rows, std::size_t i, double multiplier) {
    return multiplier == 0 ? 0 : std::abs(multiplier) * largest(rows.row(static_cast<int>(i)));
  };
  double greatest = 0;
  each([&](const Rows &rows, const std::vector<double> &multipliers) {
    for (std::size_t i = 0; i < multipliers.size(); ++i)
      greatest = std::max(greatest, weight(rows, i, multipliers[i]));
  });
  each([&](const Rows &rows, std::vector<double> &multipliers) {
    for (std::size_t i = 0; i < multipliers.size(); ++i)
      if (weight(rows, i, multipliers[i]) < tolerance::no_multiplier * greatest) multipliers[i] = 0;
  });
}

/// Adds a row times what it is off by, and tells how large the terms of that are.
inline double LevelMultipliers::add(std::span<const Term> row, double bound, double off, double magnitude) {
  double coefficients = 0;
  double greatest = 0;
  for (const Term &term : row) {
    gradient_[term.column] += off * term.value;
    coefficients += std::abs(term.value);
    greatest = std::max(greatest, std::abs(term.value));
  }
  return greatest * (coefficients * magnitude + std::abs(bound));
}

double LevelMultipliers::find_gradient(const Problem &problem, const Rows &wishes, std::span<const double> point,
                                       double magnitude) {
  double size = no_gradient(problem);
  for (int i = 0, count = wishes.size(); i < count; ++i) {
    const std::span<const Term> row = wishes.row(i);
    const double bound = wishes.bound[i];
    if (row.size() == 1) {
      const auto &[column, value] = row[0];
      const double length = std::abs(value);
      gradient_[column] += (value * point[column] - bound) * value;
      size = std::max(size, length * (length * magnitude + std::abs(bound)));
      continue;
    }
    size = std::max(size, add(row, bound, residual(row, bound, point), magnitude));
  }
  return size;
}

double LevelMultipliers::find_gradient(const Problem &problem, std::span<const double> violation, double magnitude) {
  const Rows &limits = problem.limits;
  double size = no_gradient(problem);
  for (int i = 0; i < limits.size(); ++i)
    if (violation[i] > 0) size = std::max(size, add(limits.row(i), limits.bound[i], -violation[i], magnitude));
  return size;
}

double LevelMultipliers::no_gradient(const Problem &problem) {
  gradient_.assign(problem.unknowns, 0.0);
  return 0;
}

void LevelMultipliers::give(const Problem &problem, const LevelConstraints &constraints,
                            std::span<const ActiveSet::Multiplier> multipliers, double size_of_gradient,
                            Reduction &reduction, Multipliers &into) {
  const double nothing = tolerance::no_multiplier * size_of_gradient;
  const Constraints &all = constraints.rows();
  of_kept_.assign(all.equalities, 0.0);
  for (const auto &[constraint, multiplier] : multipliers) {
    if (constraint >= all.soft_from || std::abs(multiplier) * all.rows[constraint].norm < nothing) continue;
    if (constraint < all.equalities) {
      of_kept_[constraint] = multiplier;
      continue;
    }
    const RowName name = constraints.name_of(constraint);
    (name.set == RowName::Set::at_least ? into.at_least : into.limits)[name.row] = multiplier;
    for (const Term &term : rows_of(problem, name).row(name.row))
      gradient_[term.column] -= multiplier * term.value;
  }
  for (double &component : gradient_)
    if (std::abs(component) < nothing) component = 0;
  reduction.multipliers(of_kept_, gradient_, into);
}

void make_good(const Problem &problem, const HeldInequalities &held, std::span<const double> point, int level,
               Solution &solution) {
  if (!held.any()) return;
  std::array<double, wish_levels + 1> share{};
  Multipliers &into = solution.levels[level];
  for (std::size_t i = 0; i < held.at_least().size(); ++i)
    if (const int there = held.at_least()[i]; there >= 0 && into.at_least[i] < 0)
      share[there] = std::max(share[there], -into.at_least[i] / solution.levels[there].at_least[i]);
  for (std::size_t i = 0; i < held.limits().size(); ++i)
    if (const int there = held.limits()[i]; there >= 0 && solution.violation[i] == 0 && into.limits[i] < 0)
      share[there] = std::max(share[there], -into.limits[i] / solution.levels[there].limits[i]);
  for (int earlier = 0; earlier < level; ++earlier)
    if (share[earlier] != 0) add_balance(problem, point, earlier, share[earlier], solution, into);
}

} // namespace gatherwright::optimum
