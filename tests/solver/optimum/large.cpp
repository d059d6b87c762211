// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/certificate.hpp"
#include "solver/optimum/solver.hpp"
#include "solver/optimum/wishes_at_once.hpp"
#include "tests/solver/optimum/random_problem.hpp"

#include <catch2/catch.hpp>

using namespace gatherwright;
using optimum::Problem;
using optimum::Rows;
using optimum::Solution;
using optimum::Solver;
using optimum::Status;
using optimum::Term;
using optimum::wishes_at_once;

namespace {

/// Adds a problem to others, its unknowns as a block or, where `shared`, as shared ones; nothing is added after such.
void put_beside(const Problem &problem, bool shared, Problem &all) {
  const int first = all.unknowns;
  const auto add = [&](const Rows &rows, Rows &to) {
    for (int i = 0; i < rows.size(); ++i) {
      std::vector<Term> terms(rows.row(i).begin(), rows.row(i).end());
      for (Term &term : terms)
        term.column += first;
      to.add(terms, rows.bound[i]);
    }
  };
  add(problem.equal, all.equal);
  add(problem.at_least, all.at_least);
  add(problem.limits, all.limits);
  for (int level = 0; level < optimum::wish_levels; ++level)
    add(problem.wishes[level], all.wishes[level]);
  all.unknowns += problem.unknowns;
  if (!shared) all.block_ends.push_back(all.unknowns);
}

bool leaves_much_open(const Problem &problem) {
  return problem.wishes[0].size() > 0 &&
         problem.wishes[0].size() + problem.equal.size() + problem.limits.size() < problem.unknowns;
}

} // namespace

TEST_CASE("a large problem, which looks for a place to begin at, comes to what its parts come to by themselves") {
  Solver solver;
  int large = 0;
  int missed = 0;
  int unproved = 0;
  for (std::uint64_t seed = 0; seed < 40; ++seed) {
    Problem all;
    std::vector<Solution> parts;
    double size = 1;
    for (std::uint64_t i = 0; all.unknowns <= 300; ++i) {
      const Problem problem = tests::RandomProblem(1000 * seed + i).make({3, 6, 4, 6, 2});
      const Solution &solution = solver.solve(problem);
      if (solution.status != Status::optimal) continue;
      double most = 0;
      for (const double x : solution.x)
        most = std::max(most, std::abs(x));
      // Rows that are nearly parallel take a part far away, and leave the others few digits.
      if (most > 100) continue;
      size = std::max(size, most);
      parts.push_back(solution);
      put_beside(problem, all.unknowns > 270, all);
    }
    if (!leaves_much_open(all)) continue;
    INFO("seed " << seed);
    ++large;
    const Solution &whole = solver.solve(all);
    // The whole is too large to be solved with more digits where one part in it would take them to be proved.
    REQUIRE((whole.status == Status::optimal || whole.status == Status::stalled));
    if (whole.status == Status::optimal)
      CHECK(optimum::check(all, whole).largest() <= 1e-9);
    else
      ++unproved;
    int unknown = 0;
    int limit = 0;
    for (const Solution &part : parts) {
      for (std::size_t c = 0; c < part.x.size(); ++c, ++unknown) {
        CHECK(whole.loose[unknown] == part.loose[c]);
        if (!part.loose[c]) CHECK(std::abs(whole.x[unknown] - part.x[c]) <= 1e-9 * size);
      }
      for (const double violation : part.violation) {
        missed += violation > 0;
        CHECK(std::abs(whole.violation[limit++] - violation) <= 1e-9 * size);
      }
    }
  }
  CHECK(large > 20);
  CHECK(unproved <= 1);
  CHECK(missed > 100);
}

TEST_CASE("wishes at once are those of all levels, of blocks a tenth as much as of shared unknowns") {
  Problem problem;
  problem.unknowns = 3;
  problem.block_ends = {2};
  problem.wishes[0].add(std::vector<Term>{{2, 0.5}}, 3);
  problem.wishes[1].add(std::vector<Term>{{0, 8.0}, {2, -4.0}}, 6);
  problem.wishes[2].add(std::vector<Term>{{2, -2.0}}, 1);
  problem.wishes[2].add(std::vector<Term>{{1, 4.0}}, 4);
  const Rows all = wishes_at_once(problem);
  REQUIRE(all.size() == 4);
  const auto coefficient = [&](int row, std::size_t term) { return all.row(row)[term].value; };
  CHECK(coefficient(0, 0) == 0.5);
  CHECK(all.bound[0] == 3);
  // 8 comes to a tenth of 2.
  CHECK(coefficient(1, 0) == Approx(0.2));
  CHECK(coefficient(1, 1) == Approx(-0.1));
  CHECK(all.bound[1] == Approx(0.15));
  CHECK(coefficient(2, 0) == -2);
  CHECK(all.bound[2] == 1);
  CHECK(coefficient(3, 0) == Approx(0.1));
  CHECK(all.bound[3] == Approx(0.1));
}

TEST_CASE("wishes at once are as they were where all are of blocks, or none is") {
  Problem problem;
  problem.unknowns = 2;
  problem.block_ends = {1, 2};
  problem.wishes[0].add(std::vector<Term>{{0, 3.0}}, 5);
  problem.wishes[2].add(std::vector<Term>{{1, 7.0}}, 2);
  for (const std::vector<int> &ends : {std::vector<int>{1, 2}, std::vector<int>{}}) {
    problem.block_ends = ends;
    const Rows all = wishes_at_once(problem);
    REQUIRE(all.size() == 2);
    CHECK(all.row(0)[0].value == 3);
    CHECK(all.row(1)[0].value == 7);
    CHECK(all.row(1)[0].column == 1);
    CHECK(all.bound == std::vector<double>{5, 2});
  }
}
