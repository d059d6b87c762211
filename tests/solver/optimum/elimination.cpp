// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/elimination.hpp"
#include "solver/optimum/certificate.hpp"
#include "solver/optimum/hierarchy.hpp"
#include "tests/solver/optimum/random_problem.hpp"

#include <catch2/catch.hpp>

using namespace gatherwright;
using optimum::Elimination;
using optimum::Hierarchy;
using optimum::Problem;
using optimum::Rows;
using optimum::Solution;
using optimum::Status;

namespace {

/// The same problem with other bounds and other wishes: another wearer's.
Problem with_other_bounds(Problem problem, tests::RandomProblem &random) {
  for (Rows *rows : {&problem.equal, &problem.at_least, &problem.limits})
    for (double &bound : rows->bound)
      bound += random.between(-50, 50);
  for (Rows &wishes : problem.wishes)
    for (optimum::Term &term : wishes.terms)
      term.value *= 1.5;
  return problem;
}

void check_same_bits(const Solution &a, const Solution &b) {
  CHECK(a.status == b.status);
  CHECK(a.x == b.x);
  CHECK(a.loose == b.loose);
  CHECK(a.violation == b.violation);
  for (std::size_t level = 0; level < a.levels.size(); ++level) {
    CHECK(a.levels[level].equal == b.levels[level].equal);
    CHECK(a.levels[level].at_least == b.levels[level].at_least);
    CHECK(a.levels[level].limits == b.levels[level].limits);
    CHECK(a.levels[level].wishes == b.levels[level].wishes);
  }
  CHECK(a.conflict.equal == b.conflict.equal);
  CHECK(a.conflict.at_least == b.conflict.at_least);
}

/// Blocks of 2 unknowns each, then 2 shared; the first block touches one of them, the second none.
Problem two_blocks() {
  Problem problem;
  problem.unknowns = 6;
  problem.block_ends = {2, 4};
  const auto add = [](Rows &rows, std::vector<optimum::Term> terms, double bound) { rows.add(terms, bound); };
  add(problem.equal, {{0, 1}, {1, 1}, {4, -1}}, 0);
  add(problem.equal, {{2, 1}, {3, 1}}, 10);
  add(problem.at_least, {{0, 1}}, 0);
  add(problem.limits, {{2, 1}, {3, -2}}, 0);
  add(problem.wishes[0], {{0, 1}}, 7);
  return problem;
}

} // namespace

TEST_CASE("a problem is solved from an elimination of other bounds as from its own equalities, to the bit") {
  Hierarchy from_start;
  Hierarchy anew;
  int optimal = 0;
  int conflicts = 0;
  for (std::uint64_t seed = 0; seed < 1500; ++seed) {
    INFO("seed " << seed);
    tests::RandomProblem random(seed);
    const Problem problem = random.make({});
    const Elimination start(with_other_bounds(problem, random));
    REQUIRE(start.suits(problem));
    const Solution &solution = from_start.solve(problem, Hierarchy::Wanted::everything, &start);
    check_same_bits(solution, anew.solve(problem));
    (solution.status == Status::optimal ? optimal : conflicts) += 1;
  }
  CHECK(optimal > 1000);
  CHECK(conflicts > 20);
}

TEST_CASE("equalities that come after those eliminated are held as well") {
  Hierarchy solver;
  int checked = 0;
  for (std::uint64_t seed = 0; seed < 1500; ++seed) {
    INFO("seed " << seed);
    tests::RandomProblem random(seed);
    Problem problem = random.make({});
    if (problem.shared_begin() == problem.unknowns) continue;
    const Elimination start(problem);
    const Solution free = solver.solve(problem);
    if (free.status != Status::optimal) continue;
    // Where the optimum is, so that it can hold; the level's gain is then the same.
    const int column = problem.unknowns - 1;
    problem.equal.add(std::vector<optimum::Term>{{column, 1.0}}, free.x[column]);
    REQUIRE(start.suits(problem));
    const Solution held = solver.solve(problem, Hierarchy::Wanted::everything, &start);
    if (held.status == Status::conflict) continue; // by rounding, where a place is settled to a point
    ++checked;
    CHECK(held.x[column] == Approx(free.x[column]).epsilon(1e-12).margin(1e-12));
    CHECK(optimum::check(problem, held).largest() <= 1e-9);
  }
  CHECK(checked > 500);
}

TEST_CASE("an elimination suits no problem of other coefficients, blocks or shared unknowns touched") {
  const Problem problem = two_blocks();
  const Elimination start(problem);
  CHECK(start.equalities() == 2);
  CHECK(start.suits(problem));

  Problem other = problem;
  other.equal.bound[0] = 3;
  other.wishes[0].terms[0].value = 2;
  CHECK(start.suits(other));

  other = problem;
  other.equal.terms[0].value = 2;
  CHECK_FALSE(start.suits(other));

  other = problem;
  other.equal = {};
  CHECK_FALSE(start.suits(other));

  other = problem;
  other.block_ends = {4};
  CHECK_FALSE(start.suits(other));

  other = problem;
  ++other.unknowns;
  CHECK_FALSE(start.suits(other));

  // The second block has touched no shared unknown so far.
  other = problem;
  other.limits.add(std::vector<optimum::Term>{{2, 1.0}, {5, 1.0}}, 0);
  CHECK_FALSE(start.suits(other));
  other = problem;
  other.wishes[2].add(std::vector<optimum::Term>{{2, 1.0}, {5, 1.0}}, 0);
  CHECK_FALSE(start.suits(other));
  other = problem;
  other.equal.add(std::vector<optimum::Term>{{3, 1.0}, {4, 1.0}}, 0);
  CHECK_FALSE(start.suits(other));
}
