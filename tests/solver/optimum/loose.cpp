// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/hierarchy.hpp"
#include "tests/solver/advice/linear_program.hpp"
#include "tests/solver/optimum/random_problem.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace gatherwright;
using optimum::Problem;
using optimum::Rows;
using optimum::Solution;
using optimum::Status;
using optimum::Term;

namespace {

/// The directions in which no level loses, up to 1 in each unknown, as level 0 of a problem.
Problem directions(const Problem &problem, const Solution &solution) {
  Problem made;
  made.unknowns = problem.unknowns;
  const auto spares = [&](const Rows &rows, int i) {
    double spared = -rows.bound[i];
    double size = 1 + std::abs(rows.bound[i]); // the problems' numbers are about 1 to 10
    for (const Term &term : rows.row(i)) {
      spared += term.value * solution.x[term.column];
      size += std::abs(term.value * solution.x[term.column]);
    }
    return spared > 1e-9 * size;
  };
  for (int i = 0; i < problem.equal.size(); ++i)
    made.equal.add(problem.equal.row(i), 0);
  for (int i = 0; i < problem.at_least.size(); ++i)
    if (!spares(problem.at_least, i)) made.at_least.add(problem.at_least.row(i), 0);
  for (int i = 0; i < problem.limits.size(); ++i) {
    if (solution.violation[i] > 0)
      made.equal.add(problem.limits.row(i), 0);
    else if (!spares(problem.limits, i))
      made.at_least.add(problem.limits.row(i), 0);
  }
  for (const Rows &wishes : problem.wishes)
    for (int i = 0; i < wishes.size(); ++i)
      made.equal.add(wishes.row(i), 0);
  for (int c = 0; c < problem.unknowns; ++c)
    for (const double side : {1.0, -1.0})
      made.at_least.add(std::vector<Term>{{c, side}}, -1);
  return made;
}

} // namespace

TEST_CASE("unknowns are loose where a linear program can move them though no level loses") {
  optimum::Hierarchy solver;
  int loose = 0;
  int held = 0;
  for (std::uint64_t seed = 0; seed < 700; ++seed) {
    const Problem problem = tests::RandomProblem(seed + 70000).make({.most_blocks = 2, .most_wishes = 3});
    const Solution &solution = solver.solve(problem);
    if (solution.status != Status::optimal) continue;
    const Problem open = directions(problem, solution);
    for (int c = 0; c < problem.unknowns; ++c) {
      INFO("seed " << seed << ", unknown " << c);
      double furthest = 0;
      for (const double side : {1.0, -1.0}) {
        std::vector<double> cost(problem.unknowns, 0.0);
        cost[c] = side;
        furthest = std::max(furthest, -tests::least_by_glpk(open, cost).value);
      }
      CHECK(static_cast<bool>(solution.loose[c]) == (furthest > 1e-5));
      ++(furthest > 1e-5 ? loose : held);
    }
  }
  CHECK(loose > 500);
  CHECK(held > 500);
}

TEST_CASE("an unknown that moves only along with another is loose") {
  Problem problem;
  problem.unknowns = 2;
  problem.at_least.add(std::vector<Term>{{1, 1.0}}, 0);
  problem.at_least.add(std::vector<Term>{{0, 1.0}, {1, -1.0}}, 0);
  problem.at_least.add(std::vector<Term>{{0, -1.0}, {1, 1.001}}, 0); // a narrow wedge: y <= x <= 1.001 y
  const Solution solution = optimum::Hierarchy().solve(problem);
  CHECK(solution.loose == std::vector<char>{1, 1});
}
