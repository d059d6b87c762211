// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/solver.hpp"

#include "solver/optimum/carried.hpp"
#include "tests/solver/optimum/random_problem.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace gatherwright;
using optimum::Problem;
using optimum::Solution;
using optimum::Solver;
using optimum::Status;

namespace {

using Row = std::vector<optimum::Term>;

/// Two sums of two lengths that differ by one part in `apart`.
Problem nearly_parallel(double apart, double second_bound) {
  Problem problem;
  problem.unknowns = 2;
  problem.equal.add(Row{{0, 1.0}, {1, 1.0}}, 600);
  problem.equal.add(Row{{0, 1 + apart}, {1, 1.0}}, second_bound);
  problem.at_least.add(Row{{0, 1.0}}, 0);
  problem.at_least.add(Row{{1, 1.0}}, 0);
  problem.wishes[0].add(Row{{0, 1.0 / 300}}, 1);
  problem.wishes[0].add(Row{{1, 1.0 / 400}}, 1);
  return problem;
}

double objective(const optimum::Rows &wishes, const std::vector<double> &x) {
  double sum = 0;
  for (int i = 0; i < wishes.size(); ++i) {
    double off = -wishes.bound[i];
    for (const optimum::Term &term : wishes.row(i))
      off += term.value * x[term.column];
    sum += off * off;
  }
  return sum;
}

} // namespace

TEST_CASE("two sums that differ by little have one answer, however little, down to where they are taken for one") {
  for (const double apart : {1e-4, 1e-5, 1e-6, 1e-7, 1e-8, 1e-9, 1e-10}) {
    INFO("apart by " << apart);
    Solver solver;
    const Solution &solution = solver.solve(nearly_parallel(apart, 600));
    REQUIRE(solution.status == Status::optimal);
    // The answer is (0, 600) whatever the difference: its rounding is that of a bound, over the difference.
    CHECK(std::abs(solution.x[0]) <= 600 * 1e-16 / apart);
    CHECK(solution.x[1] == Approx(600).epsilon(1e-12));
    CHECK(solver.residuals().largest() <= 1e-9);
  }
  SECTION("and below that the second says no more than the first") {
    const Solution solution = Solver().solve(nearly_parallel(1e-14, 600));
    REQUIRE(solution.status == Status::optimal);
    CHECK(solution.x[0] == Approx(264)); // the least of (x/300 - 1)^2 + (y/400 - 1)^2 on x + y = 600
  }
}

TEST_CASE(
    "sums that differ by less than digits can carry, and do not agree, are no conflict but cannot be told apart") {
  CHECK(Solver().solve(nearly_parallel(1e-12, 700)).status == Status::indistinct);
  CHECK(Solver().solve(nearly_parallel(0, 700)).status == Status::conflict);
  CHECK(Solver().feasible(nearly_parallel(1e-12, 700)) == std::nullopt);
  CHECK(Solver().feasible(nearly_parallel(0, 700)) == false);
  CHECK(Solver().feasible(nearly_parallel(1e-8, 600)) == true);
}

namespace {

/// A join of segments that are given both their lengths but for the last, which takes what is left: its long edge is
/// asked for, and each is to be 1.18 times as full as its band at the least. One is given less. Rows of a segment: two
/// equalities from 2 + 2 * segment on, and the last of three inequalities is its limit.
Problem join_with_scant(std::mt19937_64 &random, int segments, int scant) {
  std::uniform_real_distribution<double> band(20, 300);
  std::uniform_real_distribution<double> fullness(1.18, 2.7);
  Problem problem;
  const int edge = 2 * segments;
  problem.unknowns = edge + 1;
  problem.block_ends = {edge};
  Row longs{{edge, -1.0}};
  Row bands;
  for (int s = 0; s < segments; ++s) {
    longs.push_back({2 * s, 1.0});
    bands.push_back({2 * s + 1, 1.0});
  }
  problem.equal.add(longs, 0);
  problem.equal.add(bands, 300.0 * segments);
  for (int s = 0; s < segments; ++s) {
    const double is = band(random);
    const double times = s == scant ? 1.06 : fullness(random);
    if (s + 1 < segments) {
      problem.equal.add(Row{{2 * s, 1.0}}, times * is);
      problem.equal.add(Row{{2 * s + 1, 1.0}}, is);
    }
    for (const int column : {2 * s, 2 * s + 1})
      problem.at_least.add(Row{{column, 1.0}}, 0);
    problem.at_least.add(Row{{2 * s, 1.0}, {2 * s + 1, -1.18}}, 0);
  }
  return problem;
}

} // namespace

TEST_CASE("a contradiction among a few rows names no others, and wants no more digits for them") {
  std::mt19937_64 random(3);
  Solver solver;
  for (int n = 0; n < 300; ++n) {
    INFO("join " << n);
    const int segments = std::uniform_int_distribution<int>(2, 12)(random);
    const int scant = std::uniform_int_distribution<int>(0, segments - 2)(random);
    const Solution &solution = solver.solve(join_with_scant(random, segments, scant), Solver::Wanted::point);
    REQUIRE(solution.status == Status::conflict);
    const auto named = [](const std::vector<double> &multipliers) {
      std::vector<int> rows;
      for (int i = 0; i < static_cast<int>(multipliers.size()); ++i)
        if (multipliers[i] != 0) rows.push_back(i);
      return rows;
    };
    CHECK(named(solution.conflict.equal) == std::vector{2 + 2 * scant, 3 + 2 * scant});
    CHECK(named(solution.conflict.at_least) == std::vector{3 * scant + 2});
  }
  CHECK(solver.carried() == 0);
}

TEST_CASE("twice the digits find what double precision finds where that is enough") {
  int compared = 0;
  for (std::uint64_t seed = 0; seed < 300; ++seed) {
    INFO("seed " << seed);
    const Problem problem = tests::RandomProblem(seed).make({});
    Solver solver;
    const Solution &narrow = solver.solve(problem);
    if (solver.carried() > 0) continue;
    Solution carried;
    long budget = 20'000'000;
    REQUIRE(optimum::solve_carried(problem, true, budget, carried));
    REQUIRE(carried.status == narrow.status);
    if (narrow.status != Status::optimal) continue;
    CHECK(optimum::check(problem, carried).largest() <= 1e-9);
    CHECK(carried.loose == narrow.loose);
    for (const optimum::Rows &wishes : problem.wishes)
      // Each is an optimum to 1e-9 of numbers up to 1e3, of some tens of rows.
      CHECK(objective(wishes, carried.x) == Approx(objective(wishes, narrow.x)).epsilon(1e-7).margin(1e-9));
    ++compared;
  }
  CHECK(compared > 200);
}

TEST_CASE("the unit that an unknown is counted in does not matter") {
  int scaled = 0;
  for (std::uint64_t seed = 0; seed < 300; ++seed) {
    INFO("seed " << seed);
    Problem problem = tests::RandomProblem(seed).make({});
    const Solution plain = Solver().solve(problem);
    const auto order = [](int column) { return column % 2 == 0 ? 20 : -10; };
    const auto in_other_units = [&](optimum::Rows &rows) {
      for (optimum::Term &term : rows.terms)
        term.value = std::ldexp(term.value, order(term.column));
    };
    for (optimum::Rows *rows : {&problem.equal, &problem.at_least, &problem.limits})
      in_other_units(*rows);
    for (optimum::Rows &rows : problem.wishes)
      in_other_units(rows);
    Solver solver;
    const Solution &solution = solver.solve(problem);
    REQUIRE(solution.status == plain.status);
    if (plain.status != Status::optimal) continue;
    CHECK(solver.residuals().largest() <= 1e-9);
    for (std::size_t i = 0; i < plain.violation.size(); ++i)
      CHECK(solution.violation[i] == Approx(plain.violation[i]).epsilon(1e-7).margin(1e-9));
    ++scaled;
  }
  CHECK(scaled > 200);
}

TEST_CASE("a problem too large for more digits than a double's is told to be so") {
  // A hundred pairs of sums, each pair a little apart: more work than one solver may spend on digits.
  Problem problem;
  problem.unknowns = 400;
  for (int c = 0; c < problem.unknowns; c += 2) {
    problem.equal.add(Row{{c, 1.0}, {c + 1, 1.0}}, 600);
    problem.equal.add(Row{{c, 1 + 1e-9}, {c + 1, 1.0}}, 600 + 3e-7);
    problem.at_least.add(Row{{c, 1.0}}, 0);
    problem.at_least.add(Row{{c + 1, 1.0}}, 0);
  }
  const Status status = Solver().solve(problem).status;
  CHECK((status == Status::indistinct || status == Status::stalled));
}

TEST_CASE("a small wrong in a level of great numbers is not certified") {
  Problem problem;
  problem.unknowns = 2;
  problem.wishes[0].add(Row{{0, 1e2}}, 1e5);
  problem.wishes[0].add(Row{{1, 1e-1}}, 1);
  Solution solution = Solver().solve(problem);
  REQUIRE(optimum::check(problem, solution).largest() <= 1e-9);
  solution.x[1] = 11;
  CHECK(optimum::check(problem, solution).largest() > 1e-2); // of 0.1 x = 1, off by a twentieth of its terms
}

TEST_CASE("a multiplier of rounding on a row that is far from met is no alarm, one that counts is") {
  Problem problem;
  problem.unknowns = 1;
  problem.at_least.add(Row{{0, 1.0}}, 0);
  problem.wishes[0].add(Row{{0, 1.0}}, 700);
  problem.wishes[1].add(Row{{0, 1.0}}, 731);
  Solution solution = Solver().solve(problem);
  REQUIRE(optimum::check(problem, solution).largest() <= 1e-9);
  solution.levels[2].at_least[0] = 1e-14;
  CHECK(optimum::check(problem, solution).largest() <= 1e-9);
  solution.levels[2].at_least[0] = 1;
  CHECK(optimum::check(problem, solution).largest() > 1e-4); // a 1,463rd of the balance's terms
}
