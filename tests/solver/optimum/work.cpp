// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/certificate.hpp"
#include "solver/optimum/conflict.hpp"
#include "solver/optimum/elimination.hpp"
#include "solver/optimum/parts.hpp"
#include "solver/optimum/solver.hpp"
#include "tests/solver/advice/linear_program.hpp"
#include "tests/solver/optimum/random_problem.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace gatherwright;
using optimum::Elimination;
using optimum::Hierarchy;
using optimum::Problem;
using optimum::Rows;
using optimum::Solution;
using optimum::Status;
using optimum::Term;
using optimum::Work;

namespace {

/// Terms of a row as another problem's, its own unknowns beginning at `locals` and its shared ones at `shared`.
std::vector<Term> moved(std::span<const Term> row, const Problem &from, int locals, int shared) {
  std::vector<Term> terms;
  for (const Term &term : row) {
    const bool local = term.column < from.shared_begin();
    terms.push_back({local ? locals + term.column : shared + term.column - from.shared_begin(), term.value});
  }
  return terms;
}

/// Two problems as one: the blocks of both, then what each shares.
Problem side_by_side(const Problem &a, const Problem &b) {
  Problem both;
  both.unknowns = a.unknowns + b.unknowns;
  both.block_ends = a.block_ends;
  for (const int end : b.block_ends)
    both.block_ends.push_back(a.shared_begin() + end);
  const int first_shared = a.shared_begin() + b.shared_begin();
  const auto add = [&](const Rows &rows, const Problem &from, int locals, int shared, Rows &to) {
    for (int i = 0; i < rows.size(); ++i)
      to.add(moved(rows.row(i), from, locals, shared), rows.bound[i]);
  };
  const auto add_all = [&](const Problem &from, int locals, int shared) {
    add(from.equal, from, locals, shared, both.equal);
    add(from.at_least, from, locals, shared, both.at_least);
    add(from.limits, from, locals, shared, both.limits);
    for (int level = 0; level < optimum::wish_levels; ++level)
      add(from.wishes[level], from, locals, shared, both.wishes[level]);
  };
  add_all(a, 0, first_shared);
  add_all(b, a.shared_begin(), first_shared + a.unknowns - a.shared_begin());
  return both;
}

/// Level 0 with the rows of some conditions, each of which is one row: equalities first.
Problem with_rows(const Problem &problem, const std::vector<int> &kept) {
  Problem part;
  part.unknowns = problem.unknowns;
  part.block_ends = problem.block_ends;
  for (const int c : kept) {
    const bool equal = c < problem.equal.size();
    const Rows &rows = equal ? problem.equal : problem.at_least;
    const int row = equal ? c : c - problem.equal.size();
    (equal ? part.equal : part.at_least).add(rows.row(row), rows.bound[row]);
  }
  return part;
}

bool holds(const Problem &problem) {
  return tests::least_by_glpk(problem, std::vector<double>(problem.unknowns, 0.0)).feasible;
}

std::vector<optimum::Condition> each_row(const Problem &problem) {
  std::vector<optimum::Condition> conditions;
  for (int i = 0; i < problem.equal.size(); ++i)
    conditions.push_back({{i}, {}});
  for (int i = 0; i < problem.at_least.size(); ++i)
    conditions.push_back({{}, {i}});
  return conditions;
}

/// A block of so many unknowns that are to be one after another's equals.
Problem chain(int unknowns) {
  Problem problem;
  problem.unknowns = unknowns;
  problem.block_ends = {unknowns};
  for (int i = 0; i + 1 < unknowns; ++i)
    problem.equal.add(std::vector<Term>{{i, 1.0}, {i + 1, -1.0}}, 0);
  problem.wishes[0].add(std::vector<Term>{{0, 1.0}}, 5);
  return problem;
}

} // namespace

TEST_CASE("the same problem is the same work, whatever was solved before") {
  for (std::uint64_t seed = 0; seed < 100; ++seed) {
    const Problem problem = tests::RandomProblem(seed).make({});
    Work first;
    Hierarchy solver;
    solver.count_into(&first);
    solver.solve(problem);
    CHECK(first.done() > problem.unknowns);
    Work again;
    solver.count_into(&again);
    solver.solve(problem);
    INFO("seed " << seed);
    CHECK(again.done() == first.done());
  }
}

TEST_CASE("a search ends soon after its work is spent, and the solver is as good as new") {
  int ended = 0;
  for (std::uint64_t seed = 0; seed < 200; ++seed) {
    const Problem problem = tests::RandomProblem(seed).make({});
    Hierarchy solver;
    const Solution whole = solver.solve(problem);
    Work all;
    solver.count_into(&all);
    solver.solve(problem);
    INFO("seed " << seed);
    for (const int share : {2, 10}) {
      Work some(all.done() / share);
      solver.count_into(&some);
      const Status status = solver.solve(problem).status;
      CHECK(some.done() <= all.done());
      if (status == Status::too_much_work) {
        ++ended;
        CHECK(some.passed() == Work::Bound::steps);
        CHECK(solver.solve(problem).status == Status::too_much_work);
      }
    }
    solver.count_into(nullptr);
    const Solution &after = solver.solve(problem);
    CHECK(after.status == whole.status);
    CHECK(after.x == whole.x);
  }
  CHECK(ended > 100);
}

TEST_CASE("what there is no room for is refused before room is made") {
  // A thousand million numbers and more would have to be kept.
  const Problem large = chain(40'000);
  Work work;
  Hierarchy solver;
  solver.count_into(&work);
  CHECK(solver.solve(large).status == Status::too_much_work);
  CHECK(work.passed() == Work::Bound::maps);
  CHECK_FALSE(Elimination(large, &work).done());
  CHECK_FALSE(Elimination(large).suits(large));
  // One that is nearly as large as may be still solves.
  CHECK(solver.solve(chain(300)).status == Status::optimal);
}

TEST_CASE("more shared unknowns than there is room for are solved as long as they do not meet") {
  Problem apart;
  apart.unknowns = optimum::most_shared + 10;
  for (int c = 0; c < apart.unknowns; ++c)
    apart.wishes[0].add(std::vector<Term>{{c, 1.0}}, c);
  CHECK(Hierarchy().solve(apart).x[17] == Approx(17));
  apart.wishes[0].add(std::vector<Term>{{0, 1.0}, {1, 1.0}}, 0);
  Work work;
  Hierarchy solver;
  solver.count_into(&work);
  CHECK(solver.solve(apart).status == Status::too_much_work);
  CHECK(work.passed() == Work::Bound::shared);
}

TEST_CASE("a problem that falls into parts is solved by its parts") {
  int solved = 0;
  int conflicts = 0;
  int in_parts = 0;
  for (std::uint64_t seed = 0; seed < 500; ++seed) {
    const Problem a = tests::RandomProblem(seed).make({});
    const Problem b = tests::RandomProblem(seed + 1000).make({});
    const Problem both = side_by_side(a, b);
    optimum::Solver solver;
    const Status status = solver.solve(both).status;
    const std::vector<optimum::PartOfProblem> parts = optimum::parts_of(both);
    INFO("seed " << seed);
    in_parts += parts.size() >= 2; // blocks that share nothing are one part together
    int unknowns = 0;
    Solution whole = optimum::nothing_solved(both);
    bool conflict = false;
    for (const optimum::PartOfProblem &part : parts) {
      unknowns += part.problem.unknowns;
      const Solution &found = solver.solve(part.problem);
      if (found.status == Status::conflict) {
        conflict = true;
        const optimum::Multipliers by = optimum::contradiction_of_whole(both, part, found.conflict);
        CHECK(by.equal.size() == static_cast<std::size_t>(both.equal.size()));
        double bound = 0;
        for (int i = 0; i < both.equal.size(); ++i)
          bound += by.equal[i] * both.equal.bound[i];
        for (int i = 0; i < both.at_least.size(); ++i)
          bound += by.at_least[i] * both.at_least.bound[i];
        CHECK(bound > 0);
        continue;
      }
      optimum::put_together(part, found, whole);
    }
    CHECK(unknowns == both.unknowns);
    CHECK(conflict == (status == Status::conflict));
    conflicts += conflict;
    if (conflict) continue;
    // The checker knows nothing of parts.
    CHECK(optimum::check(both, whole).largest() <= 1e-9);
    ++solved;
  }
  CHECK(solved > 300);
  CHECK(conflicts > 10);
  CHECK(in_parts > 400);
}

TEST_CASE("a conflict for which the work is spent is a conflict all the same, though it may be too large") {
  Hierarchy solver;
  int conflicts = 0;
  int untried = 0;
  for (std::uint64_t seed = 0; seed < 1500 && conflicts < 60; ++seed) {
    const Problem problem = tests::RandomProblem(seed).make({});
    const Solution solution = solver.solve(problem);
    if (solution.status != Status::conflict) continue;
    ++conflicts;
    INFO("seed " << seed);
    const std::vector<optimum::Condition> conditions = each_row(problem);
    Work all;
    const optimum::Conflict whole = optimum::irreducible_conflict(problem, conditions, &solution.conflict, &all);
    CHECK(whole.irreducible);
    CHECK(whole.conditions == optimum::irreducible_conflict(problem, conditions).conditions);
    for (const int share : {1, 2, 5, 100}) {
      Work some(all.done() / share - 1);
      const optimum::Conflict found = optimum::irreducible_conflict(problem, conditions, &solution.conflict, &some);
      CHECK_FALSE(holds(with_rows(problem, found.conditions)));
      CHECK(found.apart > 0);
      untried += !found.irreducible;
      if (found.irreducible) CHECK(found.conditions == whole.conditions);
    }
    // Without a contradiction to begin from, and no work to find one, it is all of them.
    Work none(0);
    const optimum::Conflict found = optimum::irreducible_conflict(problem, conditions, nullptr, &none);
    CHECK(found.conditions.size() == conditions.size());
    CHECK_FALSE(found.irreducible);
  }
  CHECK(conflicts >= 40);
  CHECK(untried >= 40);
}
