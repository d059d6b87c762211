// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/solver.hpp"
#include "tests/solver/optimum/exact/comparison.hpp"
#include "tests/solver/optimum/exact/families.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace gatherwright;
using namespace gatherwright::tests;
using exact::Number;
using optimum::Problem;
using Row = std::vector<optimum::Term>;

TEST_CASE("the exact solver finds what is found on paper") {
  Problem problem;
  problem.unknowns = 2;
  SECTION("the point of a line nearest to another") {
    problem.equal.add(Row{{0, 1}, {1, 3}}, 1);
    problem.wishes[0].add(Row{{0, 1}}, 0);
    problem.wishes[0].add(Row{{1, 1}}, 0);
    const exact::Answer answer = exact::solve(problem);
    CHECK(answer.x[0] == Number(1, 10));
    CHECK(answer.x[1] == Number(3, 10));
    CHECK(answer.least[1] == Number(1, 10));
    CHECK(answer.unique());
  }
  SECTION("limits that cannot all hold share what is missing as their squares say") {
    problem.equal.add(Row{{1, 1}}, 7);
    problem.limits.add(Row{{0, 1}}, 3);
    problem.limits.add(Row{{0, -2}}, 0);
    const exact::Answer answer = exact::solve(problem);
    CHECK(answer.x[0] == Number(3, 5));
    CHECK(answer.violation[0] == Number(12, 5));
    CHECK(answer.violation[1] == Number(6, 5));
    CHECK(answer.least[0] == Number(36, 5));
    CHECK(answer.limit_binds == std::vector<char>{1, 1});
  }
  SECTION("a wish gives way to an inequality, and a later one takes what is left") {
    problem.at_least.add(Row{{0, -1}, {1, -1}}, -4);
    problem.wishes[0].add(Row{{0, 1}, {1, 1}}, 9);
    problem.wishes[1].add(Row{{0, 1}}, 1);
    problem.wishes[2].add(Row{{1, 1}}, 50);
    const exact::Answer answer = exact::solve(problem);
    CHECK(answer.least[1] == 25);
    CHECK(answer.x[0] == 1);
    CHECK(answer.x[1] == 3);
    CHECK(answer.least[2] == 0);
    CHECK(answer.least[3] == 47 * 47);
    CHECK(answer.at_least_binds == std::vector<char>{1});
  }
  SECTION("an unknown that nothing holds is loose, one in a corner is not") {
    problem.at_least.add(Row{{0, 1}}, 0);
    problem.at_least.add(Row{{0, -1}, {1, 0}}, 0);
    problem.at_least.add(Row{{1, 1}}, 0);
    const exact::Answer answer = exact::solve(problem);
    CHECK(answer.loose == std::vector<char>{0, 1});
    CHECK_FALSE(answer.unique());
  }
  SECTION("one part in 2^52 is not rounded away") {
    problem.equal.add(Row{{0, 1}, {1, 1}}, 60);
    problem.equal.add(Row{{0, 1 + 0x1p-52}, {1, 1}}, 61);
    const exact::Answer answer = exact::solve(problem);
    CHECK(answer.x[0] == Number(0x1p52));
    CHECK(answer.x[1] == 60 - Number(0x1p52));
  }
}

TEST_CASE("the exact solver proves a conflict by rows that cancel") {
  int conflicts = 0;
  for (std::size_t family = 0; family < exact::family_names.size(); ++family)
    for (std::uint64_t seed = 0; seed < 200; ++seed) {
      const Problem problem = exact::make_problem(static_cast<exact::Family>(family), seed);
      const exact::Answer answer = exact::solve(problem);
      if (answer.feasible) continue;
      INFO(exact::family_names[family] << " " << seed);
      exact::Vector sum(problem.unknowns);
      Number bound = 0;
      const auto add = [&](const optimum::Rows &rows, const exact::Vector &times) {
        for (int i = 0; i < rows.size(); ++i) {
          for (const optimum::Term &term : rows.row(i))
            sum[term.column] += times[i] * Number(term.value);
          bound += times[i] * Number(rows.bound[i]);
        }
      };
      add(problem.equal, answer.conflict_equal);
      add(problem.at_least, answer.conflict_at_least);
      CHECK(exact::is_zero(sum));
      CHECK(bound > 0);
      for (const Number &times : answer.conflict_at_least)
        CHECK(times >= 0);
      ++conflicts;
    }
  CHECK(conflicts > 50);
}

// Rows less than 1e-9 apart are left aside here: what must hold may be missed by as much, so that exact arithmetic on
// them answers another question. The differential program counts them.
TEST_CASE("no answer to a small problem is wrong and called good") {
  for (std::size_t family = 0; family < exact::family_names.size(); ++family)
    for (std::uint64_t seed = 0; seed < 200; ++seed) {
      if (static_cast<exact::Family>(family) == exact::Family::more_nearly_parallel) continue;
      const Problem problem = exact::make_problem(static_cast<exact::Family>(family), seed);
      const exact::Verdict verdict = exact::compare(problem, optimum::Solver().solve(problem), exact::solve(problem));
      INFO(exact::family_names[family] << " " << seed << ": " << verdict.what << " by " << verdict.worst);
      CHECK_FALSE((verdict.wrong && verdict.certified));
    }
}

TEST_CASE("a small problem without great differences is answered, right and proved") {
  for (const exact::Family family :
       {exact::Family::ordinary, exact::Family::whole, exact::Family::duplicate, exact::Family::implied})
    for (std::uint64_t seed = 0; seed < 200; ++seed) {
      const Problem problem = exact::make_problem(family, seed);
      const exact::Verdict verdict = exact::compare(problem, optimum::Solver().solve(problem), exact::solve(problem));
      INFO(exact::family_names[static_cast<std::size_t>(family)] << " " << seed << ": " << verdict.what);
      CHECK_FALSE(verdict.wrong);
      CHECK_FALSE(verdict.refused);
      CHECK(verdict.certified);
    }
}

TEST_CASE("an answer made wrong is found wrong") {
  optimum::Solver solver;
  int moved = 0;
  for (std::uint64_t seed = 0; seed < 200; ++seed) {
    const Problem problem = exact::make_problem(exact::Family::ordinary, seed);
    const exact::Answer answer = exact::solve(problem);
    optimum::Solution solution = solver.solve(problem);
    if (!exact::compare(problem, solution, answer).determined) continue;
    INFO("seed " << seed);
    solution.x[0] += 1e-4 * (1 + std::abs(solution.x[0]));
    const exact::Verdict verdict = exact::compare(problem, solution, answer);
    CHECK((verdict.wrong || verdict.bent));
    ++moved;
    solution.status = optimum::Status::conflict;
    CHECK(exact::compare(problem, solution, answer).wrong);
  }
  CHECK(moved > 100);
}
