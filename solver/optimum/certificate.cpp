// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/certificate.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace gatherwright::optimum {

namespace {

/// A row's value less its bound, with the sum of the absolute values of what went into it, and of its terms alone.
struct Value {
  double rest = 0;
  double size = 0;
  double terms = 0;
};

/// The unknowns are themselves sums, rounded at the size of what they were made from: what a row's value differs from
/// its bound by no more than this many such roundings is met.
constexpr double roundings = 64;
constexpr double rounding = std::numeric_limits<double>::epsilon();

/// Sizes go from unknown to unknown through so many equalities.
constexpr int rounds = 3;

/// A point, and of each unknown the size of the numbers that it was made from: what it is a sum of in some row. Through
/// equalities a small one may be made from a large one that is itself what is left of larger. The sizes are found when
/// they are first asked for: most rows are met, or not, whatever they are.
class Point {
public:
  Point(const Problem &problem, const std::vector<double> &unknowns) : problem_(problem), x_(unknowns) {}

  double x(int unknown) const { return x_[unknown]; }

  const std::vector<double> &sizes() const {
    if (sizes_.empty()) find_sizes();
    return sizes_;
  }

private:
  void find_sizes() const {
    double largest = 0;
    sizes_.resize(x_.size());
    for (std::size_t c = 0; c < x_.size(); ++c) {
      sizes_[c] = std::abs(x_[c]);
      largest = std::max(largest, sizes_[c]);
    }
    for (const Rows *rows : {&problem_.equal, &problem_.at_least, &problem_.limits, &problem_.wishes[0],
                             &problem_.wishes[1], &problem_.wishes[2]})
      largest = std::max(largest, largest_of(*rows));
    for (int round = 0; round < rounds; ++round)
      if (!pass_on(problem_.equal, largest)) break;
    for (const Rows *rows :
         {&problem_.at_least, &problem_.limits, &problem_.wishes[0], &problem_.wishes[1], &problem_.wishes[2]})
      pass_on(*rows, largest);
  }

  /// How large an unknown may be that some row alone decides.
  static double largest_of(const Rows &rows) {
    double largest = 0;
    for (int i = 0; i < rows.size(); ++i) {
      if (rows.bound[i] == 0) continue;
      double least = HUGE_VAL;
      for (const Term &term : rows.row(i))
        least = std::min(least, std::abs(term.value));
      largest = std::max(largest, std::min(std::abs(rows.bound[i]) / least, 1e9));
    }
    return largest;
  }

  /// Every unknown of a row is made from the greatest number in it. False: all were as large before.
  bool pass_on(const Rows &rows, double largest) const {
    bool any = false;
    for (int i = 0; i < rows.size(); ++i) {
      double greatest = std::abs(rows.bound[i]);
      for (const Term &term : rows.row(i))
        greatest = std::max(greatest, std::abs(term.value) * sizes_[term.column]);
      for (const Term &term : rows.row(i)) {
        double &size = sizes_[term.column];
        if (greatest <= std::abs(term.value) * size) continue;
        const double larger = std::min(greatest / std::abs(term.value), largest);
        any = any || larger > size;
        size = std::max(size, larger);
      }
    }
    return any;
  }

  const Problem &problem_;
  const std::vector<double> &x_;
  mutable std::vector<double> sizes_;
};

Value value_but_for_rounding(const Rows &rows, int i, const Point &point) {
  Value found{-rows.bound[i], std::abs(rows.bound[i]), 0};
  for (const Term &term : rows.row(i)) {
    const double part = term.value * point.x(term.column);
    found.rest += part;
    found.size += std::abs(part);
    found.terms += std::abs(part);
  }
  return found;
}

/// Whether what a row's value differs from its bound by is rounding. No unknown is made from less than itself, so what
/// is rounding of the row's own numbers is so in any case.
bool is_rounding(const Value &off, const Rows &rows, int i, const Point &point) {
  const double rest = std::abs(off.rest);
  if (rest <= roundings * rounding * off.terms) return true;
  double numbers = 0;
  for (const Term &term : rows.row(i))
    numbers += std::abs(term.value) * point.sizes()[term.column];
  return rest <= roundings * rounding * numbers;
}

Value value(const Rows &rows, int i, const Point &point) {
  Value found = value_but_for_rounding(rows, i, point);
  if (is_rounding(found, rows, i, point)) found.rest = 0;
  return found;
}

/// The same of an inequality, where by how much it is more than its bound is no matter.
Value value_at_least(const Rows &rows, int i, const Point &point) {
  Value found = value_but_for_rounding(rows, i, point);
  if (found.rest < 0 && is_rounding(found, rows, i, point)) found.rest = 0;
  return found;
}

double share(double part, double whole) {
  if (!(std::abs(part) > 0)) return part == 0 ? 0 : INFINITY; // NaN is no certificate
  return whole > 0 ? std::abs(part) / whole : INFINITY;
}

/// A vector condition that must vanish, and the sum of absolute values of the terms of each component.
class Balance {
public:
  explicit Balance(int unknowns) : rest_(unknowns), size_(unknowns) {}

  /// Nothing is in it.
  void clear() {
    std::fill(rest_.begin(), rest_.end(), 0.0);
    std::fill(size_.begin(), size_.end(), 0.0);
  }

  void add(const Rows &rows, int i, double factor, double factor_size) {
    for (const Term &term : rows.row(i)) {
      rest_[term.column] += factor * term.value;
      size_[term.column] += factor_size * std::abs(term.value);
    }
  }

  void take(const Rows &rows, const std::vector<double> &multipliers) {
    for (std::size_t i = 0; i < multipliers.size(); ++i)
      if (multipliers[i] != 0) add(rows, static_cast<int>(i), -multipliers[i], std::abs(multipliers[i]));
  }

  /// All is in it: rounding of the greatest component, each weighed by the numbers that its unknown is made from, is
  /// nothing in any.
  void complete(const Point &point) {
    double greatest = 0;
    for (std::size_t c = 0; c < rest_.size(); ++c)
      greatest = std::max(greatest, size_[c] * point.sizes()[c]);
    nothing_ = roundings * rounding * greatest;
  }

  /// Of each component by itself.
  double residual(const Point &point) const {
    double worst = 0;
    for (std::size_t c = 0; c < rest_.size(); ++c)
      if (!(std::abs(rest_[c]) * point.sizes()[c] <= nothing_)) worst = std::max(worst, share(rest_[c], size_[c]));
    return worst;
  }

  /// How much of some component a row so multiplied is.
  double weight(const Point &point, const Rows &rows, int i, double factor) const {
    double most = 0;
    for (const Term &term : rows.row(i)) {
      const double part = std::abs(factor * term.value);
      if (!(part * point.sizes()[term.column] <= nothing_)) most = std::max(most, share(part, size_[term.column]));
    }
    return most;
  }

private:
  std::vector<double> rest_;
  std::vector<double> size_;
  double nothing_ = 0;
};

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

/// How far level 0 is from holding.
double infeasibility(const Problem &problem, const Point &x) {
  double worst = 0;
  for (int i = 0; i < problem.equal.size(); ++i) {
    const Value at = value(problem.equal, i, x);
    worst = std::max(worst, share(at.rest, at.size));
  }
  for (int i = 0; i < problem.at_least.size(); ++i) {
    const Value at = value_at_least(problem.at_least, i, x);
    if (!(at.rest >= 0)) worst = std::max(worst, share(at.rest, at.size));
  }
  return worst;
}

/// Half the sum of a level's squares has this gradient: of the limits, minus their violations times their rows.
void add_gradient(const Problem &problem, const Solution &solution, int level, const Point &x, Balance &balance) {
  if (level == 0) {
    for (int i = 0; i < problem.limits.size(); ++i)
      if (solution.violation[i] > 0)
        balance.add(problem.limits, i, -solution.violation[i], value(problem.limits, i, x).size);
    return;
  }
  const Rows &wishes = problem.wishes[level - 1];
  for (int i = 0; i < wishes.size(); ++i) {
    const Value at = value(wishes, i, x);
    balance.add(wishes, i, at.rest, at.size);
  }
}

} // namespace

double Residuals::largest() const {
  return std::max({feasibility, stationarity, complementarity});
}

double check_feasible(const Problem &problem, const std::vector<double> &unknowns) {
  return infeasibility(problem, Point(problem, unknowns));
}

Residuals check(const Problem &problem, const Solution &solution) {
  const Point x(problem, solution.x);
  Residuals found;
  found.feasibility = infeasibility(problem, x);
  for (int i = 0; i < problem.limits.size(); ++i) {
    const Value at = value_at_least(problem.limits, i, x);
    const double violation = solution.violation[i];
    if (!(at.rest + violation >= 0))
      found.feasibility = std::max(found.feasibility, share(at.rest + violation, at.size + violation));
    if (violation < 0) found.feasibility = INFINITY;
  }
  Balance balance(problem.unknowns);
  for (int level = 0; level <= wish_levels; ++level) {
    const Multipliers &by = solution.levels[level];
    balance.clear();
    add_gradient(problem, solution, level, x, balance);
    balance.take(problem.equal, by.equal);
    balance.take(problem.at_least, by.at_least);
    if (level > 0) balance.take(problem.limits, by.limits);
    for (int earlier = 0; earlier + 1 < level; ++earlier)
      balance.take(problem.wishes[earlier], by.wishes[earlier]);
    balance.complete(x);
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
