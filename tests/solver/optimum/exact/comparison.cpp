// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/solver/optimum/exact/comparison.hpp"

#include "solver/optimum/certificate.hpp"

#include <Eigen/SVD>
#include <algorithm>
#include <cmath>
#include <limits>

namespace gatherwright::tests::exact {

namespace {

using optimum::Problem;
using optimum::Rows;
using optimum::Solution;
using optimum::Status;

/// What level 0 may be off, and a level's row, in the sum of the absolute values of the row's own terms.
constexpr double allowed_off = 1e-9;
constexpr double allowed_worse = 1e-8;

/// Unknowns are well determined where no direction, each unknown in its own size, changes all rows that hold the best
/// point by less than this share of theirs; rows off by as much as they may be then leave unknowns off by so much.
constexpr double well_determined = 0.01;
constexpr double allowed_far = allowed_worse / well_determined;

/// Beyond so many times the numbers of the rows a point is far away.
constexpr double far_away = 1e6;

/// A row of six terms whose unknowns were rounded a few times.
constexpr double rounding = 64 * std::numeric_limits<double>::epsilon();

double share(const Number &part, const Number &whole) {
  if (sgn(part) == 0) return 0;
  if (sgn(whole) == 0) return HUGE_VAL;
  return Number(abs(part) / whole).get_d();
}

/// The point told, and for each unknown the number at whose size it is rounded: an unknown that comes out as 0 was a
/// difference of numbers as large as those that its rows hold against it. Bounds that are far away are none of them.
struct Points {
  const Problem &problem;
  Vector told;
  Vector rounded_at;

  Points(const Problem &of, const Solution &solution, const Answer &exact)
      : problem(of), told(numbers(solution.x)), rounded_at(told.size()) {
    const Vector &at = exact.feasible ? exact.x : told;
    look(problem.equal, at, false);
    look(problem.at_least, at, true);
    look(problem.limits, at, true);
    for (const Rows &wishes : problem.wishes)
      look(wishes, at, false);
  }

  void look(const Rows &rows, const Vector &at, bool inequalities) {
    for (int i = 0; i < rows.size(); ++i) {
      RowValue seen = value(rows, i, at);
      if (inequalities && sgn(seen.rest) > 0) seen.size -= abs(Number(rows.bound[i]));
      for (const optimum::Term &term : rows.row(i))
        rounded_at[term.column] = std::max(rounded_at[term.column], Number(seen.size / abs(Number(term.value))));
    }
  }

  /// A difference in the size of the row, 0 where it is rounding of the unknowns.
  double in_own_size(const Rows &rows, int row, const Number &difference) const {
    Number unseen = 0;
    for (const optimum::Term &term : rows.row(row))
      unseen += abs(Number(term.value)) * rounded_at[term.column] * Number(rounding);
    return abs(difference) <= unseen ? 0 : share(difference, value(rows, row, told).size);
  }
};

struct Off {
  double own = 0;    ///< of the row that is off the most, in its own size
  Number difference; ///< the same as a number
};

/// How far level 0 is off at the most.
Off off_level_0(const Points &points) {
  Off worst;
  const auto look = [&](const Rows &rows, bool inequalities) {
    for (int i = 0; i < rows.size(); ++i) {
      const Number rest = value(rows, i, points.told).rest;
      if (inequalities && sgn(rest) >= 0) continue;
      if (const double own = points.in_own_size(rows, i, rest); own > worst.own) worst = {own, abs(rest)};
    }
  };
  look(points.problem.equal, false);
  look(points.problem.at_least, true);
  return worst;
}

/// What a level's row adds to its sum of squares, before squaring.
Number missed(const Rows &rows, int row, const Vector &x, bool limits) {
  const Number rest = value(rows, row, x).rest;
  return limits && sgn(rest) > 0 ? Number(0) : Number(abs(rest));
}

struct LevelBeside {
  int order = 0;      ///< of the sums of squares: 1: worse than the best
  double largest = 0; ///< difference of a row, in its own size
  Number difference;  ///< the same as a number
};

LevelBeside beside(const Rows &rows, const Points &points, const Answer &exact, int level) {
  LevelBeside found;
  Number sum = 0;
  for (int i = 0; i < rows.size(); ++i) {
    const Number now = missed(rows, i, points.told, level == 0);
    sum += now * now;
    const Number best = missed(rows, i, exact.x, level == 0);
    if (const double own = points.in_own_size(rows, i, now - best); own > found.largest) {
      found.largest = own;
      found.difference = abs(Number(now - best));
    }
  }
  found.order = cmp(sum, exact.least[level]);
  return found;
}

/// The greatest number that any row adds up.
Number greatest_size(const Points &points) {
  Number greatest = 0;
  const auto look = [&](const Rows &rows) {
    for (int i = 0; i < rows.size(); ++i)
      greatest = std::max(greatest, value(rows, i, points.told).size);
  };
  for (const Rows *rows : {&points.problem.equal, &points.problem.at_least, &points.problem.limits})
    look(*rows);
  for (const Rows &wishes : points.problem.wishes)
    look(wishes);
  return greatest;
}

/// Whether the rows that every best point meets just so determine it well.
bool determined_well(const Points &points, const Answer &exact) {
  const int unknowns = points.problem.unknowns;
  std::vector<Eigen::RowVectorXd> held;
  const auto look = [&](const Rows &rows, const std::vector<char> *binds) {
    for (int i = 0; i < rows.size(); ++i) {
      const Number size = value(rows, i, exact.x).size;
      if ((binds && !(*binds)[i]) || sgn(size) == 0) continue;
      held.emplace_back(Eigen::RowVectorXd::Zero(unknowns));
      for (const optimum::Term &term : rows.row(i))
        held.back()[term.column] = Number(Number(term.value) * points.rounded_at[term.column] / size).get_d();
    }
  };
  look(points.problem.equal, nullptr);
  look(points.problem.at_least, &exact.at_least_binds);
  look(points.problem.limits, &exact.limit_binds);
  for (const Rows &wishes : points.problem.wishes)
    look(wishes, nullptr);
  if (static_cast<int>(held.size()) < unknowns) return false;
  Eigen::MatrixXd rows(held.size(), unknowns);
  for (std::size_t i = 0; i < held.size(); ++i)
    rows.row(static_cast<int>(i)) = held[i];
  return Eigen::JacobiSVD<Eigen::MatrixXd>(rows).singularValues().minCoeff() >= well_determined;
}

/// The farthest that an unknown is from the exact one, in its own size.
double far_off(const Points &points, const Answer &exact) {
  double worst = 0;
  for (std::size_t column = 0; column < exact.x.size(); ++column)
    worst = std::max(worst, share(points.told[column] - exact.x[column], points.rounded_at[column]));
  return worst;
}

/// Whether the best point lies so far beyond all that the rows say of it that it is the crossing of rows almost
/// parallel, and its own digits are not enough to keep them.
bool lies_far_away(const Problem &problem, const Answer &exact) {
  double said = 0;
  const auto look = [&](const Rows &rows) {
    for (int i = 0; i < rows.size(); ++i)
      for (const optimum::Term &term : rows.row(i))
        said = std::max(said, std::abs(rows.bound[i] / term.value));
  };
  for (const Rows *rows : {&problem.equal, &problem.at_least, &problem.limits})
    look(*rows);
  for (const Rows &rows : problem.wishes)
    look(rows);
  return std::any_of(exact.x.begin(), exact.x.end(),
                     [&](const Number &x) { return std::abs(x.get_d()) > far_away * said; });
}

void find_wrong(Verdict &verdict, double by, std::string what) {
  verdict.wrong = true;
  verdict.worst = by;
  verdict.worst_of_all = by;
  verdict.what = std::move(what);
}

void compare_levels(Verdict &verdict, const Points &points, const Answer &exact) {
  const Problem &problem = points.problem;
  if (lies_far_away(problem, exact)) {
    verdict.bent = true;
    verdict.what = "the best lies far away";
    return;
  }
  const Off off = off_level_0(points);
  if (off.own > allowed_off) {
    find_wrong(verdict, off.own, "level 0 is off");
    verdict.worst_of_all = share(off.difference, greatest_size(points));
    return;
  }
  if (off.own > rounding) { // by as much as it may be: the levels after it are those of another problem
    verdict.bent = true;
    verdict.worst = off.own;
    verdict.what = "level 0 is off by what it may";
    return;
  }
  for (int level = 0; level < levels; ++level) {
    const Rows &rows = level == 0 ? problem.limits : problem.wishes[level - 1];
    const LevelBeside found = beside(rows, points, exact, level);
    if (found.largest <= allowed_worse) continue;
    if (found.order > 0) {
      find_wrong(verdict, found.largest, "level " + std::to_string(level + 1) + " is worse");
      verdict.worst_of_all = share(found.difference, greatest_size(points));
      return;
    }
    // What was given up before cannot be told from rounding; later levels are those of another problem.
    verdict.bent = true;
    verdict.worst = found.largest;
    verdict.what = "level " + std::to_string(level + 1) + " is better";
    return;
  }
  if (!exact.unique() || !determined_well(points, exact)) return;
  verdict.determined = true;
  if (const double far = far_off(points, exact); far > allowed_far) find_wrong(verdict, far, "an unknown is off");
}

} // namespace

Verdict compare(const Problem &problem, const Solution &solution, const Answer &exact) {
  Verdict verdict;
  if (solution.status == Status::conflict) {
    verdict.certified = true;
    if (exact.feasible) find_wrong(verdict, 1, "there is no conflict");
    return verdict;
  }
  if (solution.status != Status::optimal && solution.status != Status::stalled) {
    verdict.refused = true;
    return verdict;
  }
  if (!std::all_of(solution.x.begin(), solution.x.end(), [](double x) { return std::isfinite(x); })) {
    find_wrong(verdict, HUGE_VAL, "it is no number");
    return verdict;
  }
  verdict.residual = optimum::check(problem, solution).largest();
  verdict.refused = solution.status == Status::stalled;
  verdict.certified = !verdict.refused && verdict.residual <= proved;
  const Points points(problem, solution, exact);
  if (exact.feasible)
    compare_levels(verdict, points, exact);
  else if (const Off off = off_level_0(points); off.own > allowed_off)
    find_wrong(verdict, off.own, "there is a conflict");
  else
    verdict.bent = true;
  return verdict;
}

} // namespace gatherwright::tests::exact
