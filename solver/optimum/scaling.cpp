// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/scaling.hpp"

#include "solver/optimum/tolerances.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace gatherwright::optimum {

namespace {

/// Rows and columns are scaled in turn so many times (Curtis & Reid, J. Inst. Maths Applics 10 (1972) 118-124, find
/// that a few rounds do).
constexpr int rounds = 4;

/// No scale is further from 1: numbers further apart are left to stand out.
constexpr int furthest = 200;

int order_of(double value) {
  return std::ilogb(value);
}

/// The middle of the orders seen; 0 where none was.
struct Orders {
  int least = std::numeric_limits<int>::max();
  int greatest = std::numeric_limits<int>::min();

  void see(int order) {
    least = std::min(least, order);
    greatest = std::max(greatest, order);
  }
  bool any() const { return greatest >= least; }
  int middle() const { return any() ? std::clamp((least + greatest) / 2, -furthest, furthest) : 0; }
  int spread() const { return any() ? greatest - least : 0; }
};

Orders orders_of(const Rows &rows) {
  double least = HUGE_VAL;
  double greatest = 0;
  for (const Term &term : rows.terms) {
    least = std::min(least, std::abs(term.value));
    greatest = std::max(greatest, std::abs(term.value));
  }
  Orders orders;
  if (greatest > 0) {
    orders.see(order_of(least));
    orders.see(order_of(greatest));
  }
  return orders;
}

Rows scaled_rows(const Rows &rows, const std::vector<int> &column, const auto &row_exponent) {
  Rows scaled = rows;
  for (int i = 0; i < rows.size(); ++i) {
    const int by = row_exponent(i);
    for (int t = rows.start[i]; t < rows.start[i + 1]; ++t)
      scaled.terms[t].value = std::ldexp(rows.terms[t].value, by + column[rows.terms[t].column]);
    scaled.bound[i] = std::ldexp(rows.bound[i], by);
  }
  return scaled;
}

} // namespace

bool Scaling::helps(const Problem &problem) {
  weighs_too_differently_ = false;
  // Far apart in a whole set of rows is what can be far apart in a row or a column: most problems end here.
  Orders level_0 = orders_of(problem.equal);
  for (const Rows *rows : {&problem.at_least, &problem.limits})
    if (const Orders orders = orders_of(*rows); orders.any()) {
      level_0.see(orders.least);
      level_0.see(orders.greatest);
    }
  int of_level = orders_of(problem.limits).spread();
  for (const Rows &rows : problem.wishes)
    of_level = std::max(of_level, orders_of(rows).spread());
  if (level_0.spread() < tolerance::far_apart && of_level < tolerance::too_different) return false;
  find(problem);
  weighs_too_differently_ = rows_weigh_too_differently(problem);
  return columns_are_far_apart();
}

bool Scaling::columns_are_far_apart() const {
  const auto [least, greatest] = std::minmax_element(column_.begin(), column_.end());
  return least != column_.end() && *greatest - *least >= tolerance::far_apart;
}

bool Scaling::rows_weigh_too_differently(const Problem &problem) const {
  const auto differ = [this](const Rows &rows) {
    Orders weights;
    for (int i = 0; i < rows.size(); ++i) {
      Orders of_row;
      for (const Term &term : rows.row(i))
        of_row.see(order_of(term.value) + column_[term.column]);
      if (of_row.any()) weights.see(of_row.greatest);
    }
    return weights.spread() >= tolerance::still_too_different;
  };
  return differ(problem.limits) || std::any_of(problem.wishes.begin(), problem.wishes.end(), differ);
}

void Scaling::find(const Problem &problem) {
  column_.assign(problem.unknowns, 0);
  for (int round = 0; round < rounds; ++round) {
    scale_rows(problem);
    scale_columns(problem);
  }
  scale_rows(problem);
}

void Scaling::scale_rows(const Problem &problem) {
  const auto middle = [&](std::span<const Term> row) {
    Orders orders;
    for (const Term &term : row)
      orders.see(order_of(term.value) + column_[term.column]);
    return orders.middle();
  };
  equal_.resize(problem.equal.size());
  for (int i = 0; i < problem.equal.size(); ++i)
    equal_[i] = -middle(problem.equal.row(i));
  at_least_.resize(problem.at_least.size());
  for (int i = 0; i < problem.at_least.size(); ++i)
    at_least_[i] = -middle(problem.at_least.row(i));
  level_[0] = -middle(problem.limits.terms);
  for (int level = 0; level < wish_levels; ++level)
    level_[level + 1] = -middle(problem.wishes[level].terms);
}

/// Rows of limits and wishes count as if each could be scaled: their weights are no matter of units.
void Scaling::scale_columns(const Problem &problem) {
  std::vector<Orders> orders(problem.unknowns);
  const auto look = [&](const Rows &rows) {
    for (int i = 0; i < rows.size(); ++i) {
      Orders of_row;
      for (const Term &term : rows.row(i))
        of_row.see(order_of(term.value) + column_[term.column]);
      for (const Term &term : rows.row(i))
        orders[term.column].see(order_of(term.value) - of_row.middle());
    }
  };
  for (const Rows *rows : {&problem.equal, &problem.at_least, &problem.limits})
    look(*rows);
  for (const Rows &rows : problem.wishes)
    look(rows);
  for (int c = 0; c < problem.unknowns; ++c)
    column_[c] = -orders[c].middle();
}

Problem Scaling::scaled(const Problem &problem) const {
  Problem made;
  made.unknowns = problem.unknowns;
  made.block_ends = problem.block_ends;
  made.equal = scaled_rows(problem.equal, column_, [this](int i) { return equal_[i]; });
  made.at_least = scaled_rows(problem.at_least, column_, [this](int i) { return at_least_[i]; });
  made.limits = scaled_rows(problem.limits, column_, [this](int) { return level_[0]; });
  for (int level = 0; level < wish_levels; ++level)
    made.wishes[level] = scaled_rows(problem.wishes[level], column_, [&](int) { return level_[level + 1]; });
  return made;
}

/// A level's balance is between its gradient, scaled twice by its own scale, and rows scaled by theirs.
void Scaling::unscale(Multipliers &multipliers, int level_exponent) const {
  for (std::size_t i = 0; i < multipliers.equal.size(); ++i)
    multipliers.equal[i] = std::ldexp(multipliers.equal[i], equal_[i] - 2 * level_exponent);
  for (std::size_t i = 0; i < multipliers.at_least.size(); ++i)
    multipliers.at_least[i] = std::ldexp(multipliers.at_least[i], at_least_[i] - 2 * level_exponent);
  for (double &multiplier : multipliers.limits)
    multiplier = std::ldexp(multiplier, level_[0] - 2 * level_exponent);
  for (int level = 0; level < wish_levels; ++level)
    for (double &multiplier : multipliers.wishes[level])
      multiplier = std::ldexp(multiplier, level_[level + 1] - 2 * level_exponent);
}

void Scaling::unscale(Solution &solution) const {
  for (std::size_t c = 0; c < solution.x.size(); ++c)
    solution.x[c] = std::ldexp(solution.x[c], column_[c]);
  for (double &violation : solution.violation)
    violation = std::ldexp(violation, -level_[0]);
  for (std::size_t level = 0; level < solution.levels.size(); ++level)
    unscale(solution.levels[level], level_[level]);
  unscale(solution.conflict, 0);
}

} // namespace gatherwright::optimum
