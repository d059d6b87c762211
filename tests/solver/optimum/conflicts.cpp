// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/conflict.hpp"
#include "solver/optimum/hierarchy.hpp"
#include "tests/solver/advice/linear_program.hpp"
#include "tests/solver/optimum/random_problem.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace gatherwright;

namespace {

/// Level 0 of a problem with only some of its rows, each row a condition: equalities first.
optimum::Problem with_rows(const optimum::Problem &problem, const std::vector<char> &kept) {
  optimum::Problem part;
  part.unknowns = problem.unknowns;
  part.block_ends = problem.block_ends;
  for (int i = 0; i < problem.equal.size(); ++i)
    if (kept[i]) part.equal.add(problem.equal.row(i), problem.equal.bound[i]);
  for (int i = 0; i < problem.at_least.size(); ++i)
    if (kept[problem.equal.size() + i]) part.at_least.add(problem.at_least.row(i), problem.at_least.bound[i]);
  return part;
}

bool holds(const optimum::Problem &problem) {
  return tests::least_by_glpk(problem, std::vector<double>(problem.unknowns, 0.0)).feasible;
}

} // namespace

TEST_CASE("a conflict is irreducible, and keeps the earliest conditions, as a linear program sees it") {
  optimum::Hierarchy solver;
  int conflicts = 0;
  for (std::uint64_t seed = 0; seed < 1500 && conflicts < 60; ++seed) {
    const optimum::Problem problem = tests::RandomProblem(seed).make({});
    if (solver.solve(problem).status != optimum::Status::conflict) continue;
    ++conflicts;
    INFO("seed " << seed);
    std::vector<optimum::Condition> conditions;
    for (int i = 0; i < problem.equal.size(); ++i)
      conditions.push_back({{i}, {}});
    for (int i = 0; i < problem.at_least.size(); ++i)
      conditions.push_back({{}, {i}});
    const optimum::Conflict found = optimum::irreducible_conflict(problem, conditions);
    std::vector<char> kept(conditions.size(), 0);
    for (const int c : found.conditions)
      kept[c] = 1;
    CHECK_FALSE(holds(with_rows(problem, kept)));
    for (const int c : found.conditions) {
      kept[c] = 0;
      CHECK(holds(with_rows(problem, kept)));
      kept[c] = 1;
    }
    CHECK(found.apart > 0);
    // The same filter by linear programs alone: the last that can go, goes.
    std::vector<char> filtered(conditions.size(), 1);
    for (std::size_t c = conditions.size(); c-- > 0;) {
      filtered[c] = 0;
      if (holds(with_rows(problem, filtered))) filtered[c] = 1;
    }
    CHECK(filtered == kept);
  }
  CHECK(conflicts >= 40);
}
