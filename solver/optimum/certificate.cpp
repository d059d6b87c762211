// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/certificate.hpp"

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

/// The unknowns are themselves sums, rounded at the size of what they were made from: what a row's value differs from
/// its bound by no more than this many such roundings is met.
constexpr double roundings = 64;
constexpr double rounding = std::numeric_limits<double>::epsilon();

/// Sizes go from unknown to unknown through so many equalities.
constexpr int rounds = 3;

/// A point, and of each unknown the size of the numbers that it was made from: what it is a sum of in some row. Through
/// equalities a small one may be made from a large one that is itself what is left of larger.
struct Point {
  const std::vector<double> &x;
  std::vector<double> size;

  Point(const Problem &problem, const std::vector<double> &unknowns) : x(unknowns), size(unknowns.size()) {
    double largest = 0;
    for (std::size_t c = 0; c < x.size(); ++c) {
      size[c] = std::abs(x[c]);
      largest = std::max(largest, size[c]);
    }
    for (const Rows *rows : {&problem.equal, &problem.at_least, &problem.limits, &problem.wishes[0], &problem.wishes[1],
                             &problem.wishes[2]})
      for (int i = 0; i < rows->size(); ++i)
        for (const Term &term : rows->row(i))
          largest = std::max(largest, std::min(std::abs(rows->bound[i] / term.value), 1e9));
    for (int round = 0; round < rounds; ++round)
      pass_on(problem.equal, largest);
    for (const Rows *rows :
         {&problem.at_least, &problem.limits, &problem.wishes[0], &problem.wishes[1], &problem.wishes[2]})
      pass_on(*rows, largest);
  }

private:
  void pass_on(const Rows &rows, double largest) {
    for (int i = 0; i < rows.size(); ++i) {
      double greatest = std::abs(rows.bound[i]);
      for (const Term &term : rows.row(i))
        greatest = std::max(greatest, std::abs(term.value) * size[term.column]);
      for (const Term &term : rows.row(i))
        size[term.column] = std::max(size[term.column], std::min(greatest / std::abs(term.value), largest));
    }
  }
};

Value value(const Rows &rows, int i, const Point &point) {
  Value found{-rows.bound[i], std::abs(rows.bound[i])};
  double numbers = 0;
  for (const Term &term : rows.row(i)) {
    found.rest += term.value * point.x[term.column];
    found.size += std::abs(term.value * point.x[term.column]);
    numbers += std::abs(term.value) * point.size[term.column];
  }
  if (std::abs(found.rest) <= roundings * rounding * numbers) found.rest = 0;
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
  /// Of each component by itself.
  double residual(const Point &point) const {
    const double nothing = rounding_of_greatest(point);
    double worst = 0;
    for (std::size_t c = 0; c < rest.size(); ++c)
      if (!(std::abs(rest[c]) * point.size[c] <= nothing)) worst = std::max(worst, share(rest[c], size[c]));
    return worst;
  }

  /// How much of some component a row so multiplied is.
  double weight(const Point &point, const Rows &rows, int i, double factor) const {
    const double nothing = rounding_of_greatest(point);
    double most = 0;
    for (const Term &term : rows.row(i)) {
      const double part = std::abs(factor * term.value);
      if (!(part * point.size[term.column] <= nothing)) most = std::max(most, share(part, size[term.column]));
    }
    return most;
  }

private:
  /// Rounding of the greatest component, each weighed by the numbers that its unknown is made from, is nothing in any.
  double rounding_of_greatest(const Point &point) const {
    double greatest = 0;
    for (std::size_t c = 0; c < rest.size(); ++c)
      greatest = std::max(greatest, size[c] * point.size[c]);
    return roundings * rounding * greatest;
  }
};

void take(Balance &balance, const Rows &rows, const std::vector<double> &multipliers) {
  for (std::size_t i = 0; i < multipliers.size(); ++i)
    if (multipliers[i] != 0) balance.add(rows, static_cast<int>(i), -multipliers[i], std::abs(multipliers[i]));
}

/// How far the multipliers of inequalities are from complementing their rows: of each the lesser of how much of the
/// balance it is and how far its row is from being met, since without either there would be nothing amiss; of one with
/// the wrong sign, how much of the balance it is. A limit that is missed may have either sign.
double complement(const Balance &balance, const Rows &rows, const std::vector<double> &multipliers, const Point &x,
                  const std::vector<double> *least_violation) {
  double worst = 0;
  for (std::size_t i = 0; i < multipliers.size(); ++i) {
    const double multiplier = multipliers[i];
    if (multiplier == 0) continue;
    const int row = static_cast<int>(i);
    const double violation = least_violation ? (*least_violation)[i] : 0;
    const double weight = balance.weight(x, rows, row, multiplier);
    if (multiplier < 0 && !(violation > 0)) worst = std::max(worst, weight);
    const Value at = value(rows, row, x);
    worst = std::max(worst, std::min(weight, share(at.rest + violation, at.size + violation)));
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
    take(balance, problem.equal, by.equal);
    take(balance, problem.at_least, by.at_least);
    if (level > 0) take(balance, problem.limits, by.limits);
    for (int earlier = 0; earlier + 1 < level; ++earlier)
      take(balance, problem.wishes[earlier], by.wishes[earlier]);
    found.stationarity = std::max(found.stationarity, balance.residual(x));
    found.complementarity =
        std::max(found.complementarity, complement(balance, problem.at_least, by.at_least, x, nullptr));
    if (level > 0)
      found.complementarity =
          std::max(found.complementarity, complement(balance, problem.limits, by.limits, x, &solution.violation));
  }
  return found;
}

} // namespace gatherwright::optimum
