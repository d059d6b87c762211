// SPDX-License-Identifier: GPL-3.0-or-later
#include "optimum/certificate.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace gatherwright::optimum {

namespace {

/// A row's value less its bound, with the sum of the absolute values of what went into it.
struct Value {
  double rest = 0;
  double size = 0;
};

/// The unknowns are themselves sums rounded at the size of the largest of them: what a row's value differs from its
/// bound by no more than this many such roundings is met.
constexpr double roundings = 64;

/// A point and the size of the numbers it was made from.
struct Point {
  const std::vector<double> &x;
  double largest = 0;

  Point(const Problem &problem, const std::vector<double> &unknowns) : x(unknowns) {
    for (const double unknown : x)
      largest = std::max(largest, std::abs(unknown));
    for (const Rows *rows : {&problem.equal, &problem.at_least, &problem.limits, &problem.wishes[0], &problem.wishes[1],
                             &problem.wishes[2]})
      for (int i = 0; i < rows->size(); ++i)
        for (const Term &term : rows->row(i))
          largest = std::max(largest, std::min(std::abs(rows->bound[i] / term.value), 1e9));
  }
};

Value value(const Rows &rows, int i, const Point &point) {
  Value found{-rows.bound[i], std::abs(rows.bound[i])};
  double coefficients = 0;
  for (const Term &term : rows.row(i)) {
    found.rest += term.value * point.x[term.column];
    found.size += std::abs(term.value * point.x[term.column]);
    coefficients += std::abs(term.value);
  }
  if (std::abs(found.rest) <= roundings * std::numeric_limits<double>::epsilon() * coefficients * point.largest)
    found.rest = 0;
  return found;
}

double share(double part, double whole) {
  if (!(std::abs(part) > 0)) return part == 0 ? 0 : INFINITY; // NaN is no certificate
  return whole > 0 ? std::abs(part) / whole : INFINITY;
}

/// A vector condition that must vanish, and the sum of absolute values of the terms of each component.
struct Balance {
  std::vector<double> rest;
  std::vector<double> size;

  explicit Balance(int unknowns) : rest(unknowns, 0.0), size(unknowns, 0.0) {}
  void add(const Rows &rows, int i, double factor, double factor_size) {
    for (const Term &term : rows.row(i)) {
      rest[term.column] += factor * term.value;
      size[term.column] += factor_size * std::abs(term.value);
    }
  }
  double residual() const {
    double part = 0;
    double whole = 0;
    for (std::size_t c = 0; c < rest.size(); ++c) {
      if (std::isnan(rest[c])) return INFINITY;
      part = std::max(part, std::abs(rest[c]));
      whole = std::max(whole, size[c]);
    }
    return share(part, whole);
  }
};

/// What one level's multipliers take from its balance, and how far they are from complementing their rows.
double take(Balance &balance, const Rows &rows, const std::vector<double> &multipliers, const Point &x,
            const std::vector<double> *least_violation, bool inequality) {
  double worst = 0;
  for (std::size_t i = 0; i < multipliers.size(); ++i) {
    const double multiplier = multipliers[i];
    if (multiplier == 0) continue;
    const int row = static_cast<int>(i);
    balance.add(rows, row, -multiplier, std::abs(multiplier));
    if (!inequality) continue;
    const double violation = least_violation ? (*least_violation)[i] : 0;
    const Value at = value(rows, row, x);
    worst = std::max(worst, share(at.rest + violation, at.size + violation));
  }
  return worst;
}

} // namespace

double Residuals::largest() const {
  return std::max({feasibility, stationarity, complementarity});
}

double check_feasible(const Problem &problem, const std::vector<double> &unknowns) {
  const Point x(problem, unknowns);
  double worst = 0;
  for (int i = 0; i < problem.equal.size(); ++i) {
    const Value at = value(problem.equal, i, x);
    worst = std::max(worst, share(at.rest, at.size));
  }
  for (int i = 0; i < problem.at_least.size(); ++i) {
    const Value at = value(problem.at_least, i, x);
    if (!(at.rest >= 0)) worst = std::max(worst, share(at.rest, at.size));
  }
  return worst;
}

Residuals check(const Problem &problem, const Solution &solution) {
  const Point x(problem, solution.x);
  Residuals found;
  found.feasibility = check_feasible(problem, solution.x);
  for (int i = 0; i < problem.limits.size(); ++i) {
    const Value at = value(problem.limits, i, x);
    const double violation = solution.violation[i];
    if (!(at.rest + violation >= 0))
      found.feasibility = std::max(found.feasibility, share(at.rest + violation, at.size + violation));
    if (violation < 0) found.feasibility = INFINITY;
  }
  for (int level = 0; level <= wish_levels; ++level) {
    const Multipliers &by = solution.levels[level];
    Balance balance(problem.unknowns);
    if (level == 0) {
      // Half the sum of squared violations: its gradient is minus the violations times their rows.
      for (int i = 0; i < problem.limits.size(); ++i)
        if (solution.violation[i] > 0)
          balance.add(problem.limits, i, -solution.violation[i], value(problem.limits, i, x).size);
    } else {
      const Rows &wishes = problem.wishes[level - 1];
      for (int i = 0; i < wishes.size(); ++i) {
        const Value at = value(wishes, i, x);
        balance.add(wishes, i, at.rest, at.size);
      }
    }
    double wrong_sign = 0;
    for (const double multiplier : by.at_least)
      wrong_sign = std::max(wrong_sign, -multiplier);
    for (std::size_t i = 0; i < by.limits.size(); ++i)
      if (!(solution.violation[i] > 0)) wrong_sign = std::max(wrong_sign, -by.limits[i]);
    double met = take(balance, problem.equal, by.equal, x, nullptr, false);
    met = std::max(met, take(balance, problem.at_least, by.at_least, x, nullptr, true));
    if (level > 0) met = std::max(met, take(balance, problem.limits, by.limits, x, &solution.violation, true));
    for (int earlier = 0; earlier + 1 < level; ++earlier)
      take(balance, problem.wishes[earlier], by.wishes[earlier], x, nullptr, false);
    found.stationarity = std::max(found.stationarity, balance.residual());
    const double whole = balance.size.empty() ? 0 : *std::max_element(balance.size.begin(), balance.size.end());
    found.complementarity = std::max({found.complementarity, met, share(wrong_sign, whole)});
  }
  return found;
}

} // namespace gatherwright::optimum
