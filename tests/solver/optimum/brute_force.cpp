// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/hierarchy.hpp"
#include "tests/solver/optimum/exact/lexicographic.hpp"
#include "tests/solver/optimum/random_problem.hpp"

#include <Eigen/Dense>
#include <catch2/catch.hpp>
#include <cmath>

using namespace gatherwright;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

struct Dense {
  MatrixXd rows;
  VectorXd bound;
};

Dense dense(const optimum::Rows &rows, int unknowns) {
  Dense made{MatrixXd::Zero(rows.size(), unknowns), VectorXd::Zero(rows.size())};
  for (int i = 0; i < rows.size(); ++i) {
    for (const optimum::Term &term : rows.row(i))
      made.rows(i, term.column) += term.value;
    made.bound[i] = rows.bound[i];
  }
  return made;
}

Dense stacked(const Dense &above, const Dense &below) {
  Dense made{MatrixXd(above.rows.rows() + below.rows.rows(), above.rows.cols()),
             VectorXd(above.bound.size() + below.bound.size())};
  made.rows << above.rows, below.rows;
  made.bound << above.bound, below.bound;
  return made;
}

/// The least of |A x - b|^2 under equalities and inequalities, by trying every set of inequalities as equalities.
struct Least {
  double cost = HUGE_VAL;
  VectorXd x;
};

Least least(const Dense &wishes, const Dense &equal, const Dense &at_least) {
  Least best;
  const int inequalities = static_cast<int>(at_least.bound.size());
  for (unsigned set = 0; set < (1U << inequalities); ++set) {
    Dense held = equal;
    for (int i = 0; i < inequalities; ++i)
      if (set >> i & 1U) held = stacked(held, {at_least.rows.row(i), at_least.bound.segment(i, 1)});
    // x = point + null y: the held equalities first, then the wishes by least squares.
    VectorXd point = VectorXd::Zero(wishes.rows.cols());
    MatrixXd null = MatrixXd::Identity(wishes.rows.cols(), wishes.rows.cols());
    if (held.bound.size() > 0) {
      const Eigen::FullPivLU<MatrixXd> lu = Eigen::FullPivLU<MatrixXd>(held.rows).setThreshold(1e-9);
      const Eigen::CompleteOrthogonalDecomposition<MatrixXd> solve(held.rows);
      point = solve.solve(held.bound);
      if ((held.rows * point - held.bound).norm() > 1e-8) continue;
      null = lu.dimensionOfKernel() > 0 ? MatrixXd(lu.kernel()) : MatrixXd(wishes.rows.cols(), 0);
    }
    VectorXd x = point;
    if (null.cols() > 0 && wishes.bound.size() > 0) {
      const MatrixXd seen = wishes.rows * null;
      x += null * seen.completeOrthogonalDecomposition().solve(wishes.bound - wishes.rows * point);
    }
    if (inequalities > 0 && (at_least.rows * x - at_least.bound).minCoeff() < -1e-8) continue;
    const double cost = wishes.bound.size() > 0 ? (wishes.rows * x - wishes.bound).squaredNorm() : 0;
    if (cost < best.cost - 1e-12) best = {cost, x};
  }
  return best;
}

/// Trying sets finds the least cost but not every point of it: of a level's optimal points only those at which no
/// inequality within the level's own plane is needed. So a level is held as equalities, and the next tries all sets
/// again.
std::vector<double> costs_by_brute_force(const optimum::Problem &problem) {
  const int limits = problem.limits.size();
  const int unknowns = problem.unknowns;
  // One unknown more for each limit: its violation.
  const auto widened = [&](const Dense &rows) {
    Dense wide{MatrixXd::Zero(rows.rows.rows(), unknowns + limits), rows.bound};
    wide.rows.leftCols(unknowns) = rows.rows;
    return wide;
  };
  Dense equal = widened(dense(problem.equal, unknowns));
  Dense at_least = widened(dense(problem.at_least, unknowns));
  Dense soft = widened(dense(problem.limits, unknowns));
  soft.rows.rightCols(limits) = MatrixXd::Identity(limits, limits);
  at_least = stacked(at_least, soft);
  Dense violations{MatrixXd::Zero(limits, unknowns + limits), VectorXd::Zero(limits)};
  violations.rows.rightCols(limits) = MatrixXd::Identity(limits, limits);
  std::vector<Dense> levels{violations};
  for (const optimum::Rows &wishes : problem.wishes)
    levels.push_back(widened(dense(wishes, unknowns)));
  std::vector<double> costs;
  for (const Dense &level : levels) {
    const Least found = least(level, equal, at_least);
    if (found.cost == HUGE_VAL) return {};
    costs.push_back(found.cost);
    if (level.bound.size() > 0) equal = stacked(equal, {level.rows, level.rows * found.x});
  }
  return costs;
}

} // namespace

TEST_CASE("no level of a small problem is done better by trying every active set") {
  optimum::Hierarchy solver;
  int compared = 0;
  for (std::uint64_t seed = 0; seed < 250; ++seed) {
    INFO("seed " << seed);
    tests::RandomProblem random(seed + 5000);
    const optimum::Problem problem =
        random.make({.most_blocks = 1, .most_of_block = 2, .most_shared = 2, .most_rows = 3, .most_wishes = 3});
    const std::vector<double> brute = costs_by_brute_force(problem);
    const optimum::Solution &solution = solver.solve(problem);
    REQUIRE((solution.status == optimum::Status::conflict) == brute.empty());
    if (brute.empty()) continue;
    double violations = 0;
    for (const double violation : solution.violation)
      violations += violation * violation;
    // Brute force holds each level by equalities solved to 1e-8.
    CHECK(violations == Approx(brute[0]).epsilon(1e-6).margin(1e-6));
    const Eigen::Map<const VectorXd> x(solution.x.data(), problem.unknowns);
    for (int level = 0; level < optimum::wish_levels; ++level) {
      const Dense wishes = dense(problem.wishes[level], problem.unknowns);
      const double cost = wishes.bound.size() > 0 ? (wishes.rows * x - wishes.bound).squaredNorm() : 0;
      CHECK(cost == Approx(brute[level + 1]).epsilon(1e-6).margin(1e-6));
    }
    ++compared;
  }
  CHECK(compared > 150);
}

TEST_CASE("trying every active set finds what the exact solver finds") {
  int compared = 0;
  for (std::uint64_t seed = 0; seed < 250; ++seed) {
    INFO("seed " << seed);
    tests::RandomProblem random(seed + 9000);
    const optimum::Problem problem =
        random.make({.most_blocks = 1, .most_of_block = 2, .most_shared = 2, .most_rows = 3, .most_wishes = 3});
    // Equalities of rounded numbers that come twice need not meet exactly.
    const tests::exact::Answer exact = tests::exact::solve(problem);
    const std::vector<double> brute = costs_by_brute_force(problem);
    if (!exact.feasible || brute.empty()) continue;
    for (int level = 0; level < tests::exact::levels; ++level)
      CHECK(exact.least[level].get_d() == Approx(brute[level]).epsilon(1e-6).margin(1e-6));
    ++compared;
  }
  CHECK(compared > 150);
}
