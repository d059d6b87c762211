// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/elimination.hpp"
#include "solver/optimum/solver.hpp"
#include "tests/solver/optimum/random_problem.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace gatherwright;
using optimum::Binding;
using optimum::Elimination;
using optimum::Problem;
using optimum::RowName;
using optimum::Solution;
using optimum::Solver;
using optimum::Status;

namespace {

/// Points that are found in two ways differ by the rounding of either, which these small problems make ten thousand
/// times as much of at most; but for those whose answer is a thousand times as great as any number in them, where rows
/// are nearly parallel.
constexpr double alike = 1e-11;

/// From anywhere, whatever is guessed, they are as alike as a plan promises.
constexpr double promised = 1e-9;
constexpr double far_off = 1e4;

/// Whether a search came to an end that can be told from others: among rows that are nearly parallel it need not.
bool is_settled(const Solution &solution) {
  return solution.status == Status::optimal || solution.status == Status::conflict;
}

/// `loose`: unknowns that may be elsewhere.
void check_alike(const Solution &near, const Solution &anew, const std::vector<char> &loose, double how_much) {
  REQUIRE(near.status == anew.status);
  if (anew.status != Status::optimal) return;
  double size = 1;
  for (const double x : anew.x)
    size = std::max(size, std::abs(x));
  if (size > far_off) return;
  for (std::size_t c = 0; c < anew.x.size(); ++c)
    if (!loose[c]) CHECK(std::abs(near.x[c] - anew.x[c]) <= how_much * size);
  for (std::size_t i = 0; i < anew.violation.size(); ++i)
    CHECK(std::abs(near.violation[i] - anew.violation[i]) <= how_much * size);
}

/// A problem with its answer, and the same with one of the shared unknowns held near to where it was found.
struct Held {
  Problem problem, held;
  Solution solution;
  Binding binding;

  Held(tests::RandomProblem &random, Solver &solver) : problem(random.make({6, 6, 6, 12, 9})), held(problem) {
    solution = solver.solve(problem);
    binding = solver.binding();
    if (solution.status != Status::optimal || problem.shared_begin() == problem.unknowns) return;
    const int column = random.whole(problem.shared_begin(), problem.unknowns - 1);
    held.equal.add(std::vector<optimum::Term>{{column, 1.0}}, std::round(8 * solution.x[column]) / 8);
  }

  bool made() const { return held.equal.size() > problem.equal.size(); }
};

} // namespace

TEST_CASE("a problem is solved from the answer of one much the same as from nothing") {
  Solver solver;
  int optimal = 0;
  int conflicts = 0;
  int unsettled = 0;
  for (std::uint64_t seed = 0; seed < 3000; ++seed) {
    INFO("seed " << seed);
    tests::RandomProblem random(seed);
    const Held made(random, solver);
    if (!made.made()) continue;
    const Elimination start(made.problem);
    const Solution near = solver.solve_near(made.held, {made.solution.x, made.binding}, start);
    const Solution anew = solver.solve(made.held, Solver::Wanted::point);
    if (!is_settled(anew)) {
      ++unsettled;
      continue;
    }
    check_alike(near, anew, solver.solve(made.held).loose, alike);
    (anew.status == Status::optimal ? optimal : conflicts) += 1;
  }
  CHECK(optimal > 1000);
  CHECK(conflicts > 20);
  CHECK(unsettled < 10);
}

TEST_CASE("the answer is the same from any beginning, however far off and whatever is guessed to bind") {
  Solver solver;
  int optimal = 0;
  for (std::uint64_t seed = 0; seed < 3000; ++seed) {
    INFO("seed " << seed);
    tests::RandomProblem random(seed);
    const Held made(random, solver);
    if (!made.made()) continue;
    std::vector<double> x(made.problem.unknowns);
    for (double &each : x)
      each = random.between(-20, 20);
    Binding binding;
    for (int level = 0; level < optimum::wish_levels; ++level) {
      for (int i = 0; i < made.problem.at_least.size(); ++i)
        if (random.whole(0, 5) == 0) binding.rows.push_back({level, {RowName::Set::at_least, 0, i}});
      for (int i = 0; i < made.problem.limits.size(); ++i)
        if (random.whole(0, 5) == 0) binding.rows.push_back({level, {RowName::Set::limits, 0, i}});
    }
    const Elimination start(made.problem);
    const Solution near = solver.solve_near(made.held, {x, binding}, start);
    const Solution anew = solver.solve(made.held, Solver::Wanted::point);
    if (!is_settled(anew)) continue;
    check_alike(near, anew, solver.solve(made.held).loose, promised);
    optimal += anew.status == Status::optimal ? 1 : 0;
  }
  CHECK(optimal > 1000);
}
