// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/certificate.hpp"
#include "solver/optimum/solver.hpp"
#include "tests/solver/advice/linear_program.hpp"
#include "tests/solver/optimum/random_problem.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace gatherwright;
using optimum::Problem;
using optimum::Solution;
using optimum::Solver;
using optimum::Status;

namespace {

bool feasible_by_glpk(const Problem &problem) {
  return tests::least_by_glpk(problem, std::vector<double>(problem.unknowns, 0.0)).feasible;
}

} // namespace

TEST_CASE("every random problem is certified, and level 0 conflicts where a linear program says so") {
  Solver solver;
  int conflicts = 0;
  int violated = 0;
  for (std::uint64_t seed = 0; seed < 1500; ++seed) {
    INFO("seed " << seed);
    tests::RandomProblem random(seed);
    const Problem problem = random.make({});
    const Solution &solution = solver.solve(problem);
    if (solution.status == Status::conflict) {
      ++conflicts;
      CHECK_FALSE(random.keeps_level_0());
      CHECK_FALSE(feasible_by_glpk(problem));
      continue;
    }
    REQUIRE(solution.status == Status::optimal);
    if (!random.keeps_level_0()) CHECK(feasible_by_glpk(problem));
    CHECK(optimum::check(problem, solution).largest() <= 1e-9);
    for (const double violation : solution.violation)
      violated += violation > 0;
  }
  CHECK(conflicts > 20);
  CHECK(violated > 100);
}

TEST_CASE("a conflict comes with rows that cancel and bounds that do not") {
  Solver solver;
  int conflicts = 0;
  for (std::uint64_t seed = 0; seed < 2000; ++seed) {
    tests::RandomProblem random(seed);
    const Problem problem = random.make({});
    const Solution &solution = solver.solve(problem);
    if (solution.status != Status::conflict) continue;
    ++conflicts;
    std::vector<double> sum(problem.unknowns, 0.0);
    double size = 0;
    double bound = 0;
    const auto add = [&](const optimum::Rows &rows, const std::vector<double> &multipliers) {
      for (int i = 0; i < rows.size(); ++i) {
        bound += multipliers[i] * rows.bound[i];
        for (const optimum::Term &term : rows.row(i)) {
          sum[term.column] += multipliers[i] * term.value;
          size = std::max(size, std::abs(multipliers[i] * term.value));
        }
      }
    };
    add(problem.equal, solution.conflict.equal);
    add(problem.at_least, solution.conflict.at_least);
    INFO("seed " << seed);
    for (const double component : sum)
      CHECK(std::abs(component) <= 1e-9 * size);
    for (const double multiplier : solution.conflict.at_least)
      CHECK(multiplier >= -1e-9 * size);
    CHECK(bound > 0);
  }
  CHECK(conflicts > 20);
}

TEST_CASE("a perturbed answer is not certified") {
  Solver solver;
  int points = 0;
  int multipliers = 0;
  for (std::uint64_t seed = 0; seed < 400; ++seed) {
    INFO("seed " << seed);
    tests::RandomProblem random(seed);
    const Problem problem = random.make({});
    const Solution solution = solver.solve(problem);
    if (solution.status != Status::optimal) continue;
    REQUIRE(optimum::check(problem, solution).largest() <= 1e-9);
    // Only what a row sees can be told: perturb an unknown that an equality holds.
    if (problem.equal.size() > 0) {
      Solution moved = solution;
      const int column = problem.equal.row(0)[0].column;
      moved.x[column] += 1e-6 * std::max(1.0, std::abs(moved.x[column]));
      CHECK(optimum::check(problem, moved).largest() > 1e-9);
      ++points;
    }
    for (std::size_t level = 1; level < solution.levels.size(); ++level)
      for (std::size_t i = 0; i < solution.levels[level].at_least.size(); ++i) {
        const double multiplier = solution.levels[level].at_least[i];
        if (multiplier < 1e-2) continue;
        Solution changed = solution;
        changed.levels[level].at_least[i] *= -1;
        CHECK(optimum::check(problem, changed).largest() > 1e-9);
        changed.levels[level].at_least[i] = multiplier * (1 + 1e-5);
        CHECK(optimum::check(problem, changed).largest() > 1e-9);
        ++multipliers;
      }
    for (std::size_t i = 0; i < solution.violation.size(); ++i) {
      if (solution.violation[i] < 1e-2) continue;
      Solution changed = solution;
      changed.violation[i] *= 1 - 1e-4;
      CHECK(optimum::check(problem, changed).largest() > 1e-9);
    }
  }
  CHECK(points > 100);
  CHECK(multipliers > 50);
}

TEST_CASE("an answer that is no number is not certified") {
  Problem problem;
  problem.unknowns = 1;
  problem.wishes[0].add(std::vector<optimum::Term>{{0, 1.0}}, 3);
  Solution solution = Solver().solve(problem);
  REQUIRE(optimum::check(problem, solution).largest() <= 1e-9);
  solution.x[0] = NAN;
  CHECK_FALSE(optimum::check(problem, solution).largest() <= 1e-9);
}

TEST_CASE("a problem is solved to the same bits again, whatever was solved between") {
  Solver used;
  for (std::uint64_t seed = 0; seed < 200; ++seed) {
    const Problem problem = tests::RandomProblem(seed).make({});
    const Problem other = tests::RandomProblem(seed + 1000).make({});
    const Solution first = used.solve(problem);
    used.solve(other);
    const Solution again = used.solve(problem);
    const Solution fresh = Solver().solve(problem);
    CHECK(first.status == again.status);
    CHECK(first.status == fresh.status);
    if (first.status != Status::optimal) continue;
    CHECK(first.x == again.x);
    CHECK(first.x == fresh.x);
  }
}

TEST_CASE("problems with nothing in them are solved") {
  Problem none;
  CHECK(Solver().solve(none).status == Status::optimal);
  Problem alone;
  alone.unknowns = 3;
  CHECK(Solver().solve(alone).status == Status::optimal);
  Problem hollow = alone;
  hollow.block_ends = {0, 2, 2};
  hollow.wishes[1].add(std::vector<optimum::Term>{{1, 2.0}, {2, 1.0}}, 4);
  const Solution solved = Solver().solve(hollow);
  CHECK(2 * solved.x[1] + solved.x[2] == Approx(4));
  Problem impossible = alone;
  impossible.at_least.add(std::vector<optimum::Term>{}, 1);
  CHECK(Solver().solve(impossible).status == Status::conflict);
}

TEST_CASE("the size of the numbers does not matter") {
  for (const double scale : {1e-3, 1e3, 1e6}) {
    Solver solver;
    for (std::uint64_t seed = 0; seed < 200; ++seed) {
      Problem problem = tests::RandomProblem(seed).make({});
      const auto stretch = [&](optimum::Rows &rows) {
        for (double &bound : rows.bound)
          bound *= scale;
      };
      stretch(problem.equal);
      stretch(problem.at_least);
      stretch(problem.limits);
      for (optimum::Rows &wishes : problem.wishes)
        stretch(wishes);
      const Solution &solution = solver.solve(problem);
      if (solution.status == Status::conflict) continue;
      INFO("scale " << scale << ", seed " << seed);
      CHECK(optimum::check(problem, solution).largest() <= 1e-9);
    }
  }
}
