// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/allot/allotment.hpp"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace gatherwright;
using allot::Allotment;
using allot::Scheme;
using optimum::Problem;
using optimum::Solution;
using optimum::Solver;
using optimum::Status;
using optimum::Term;

namespace {

constexpr double step = 1; ///< of the tape, millimetres

/// Joins of two gathered segments over free lengths, every second of which is a long edge and the others bands, some
/// with aims; limits that are narrow, so that they bind, and rules between lengths.
Scheme joins_over_lengths(int joins, int lengths, int rules, std::uint64_t seed) {
  std::mt19937_64 random(seed);
  const auto between = [&](double low, double high) { return std::uniform_real_distribution(low, high)(random); };
  const auto below = [&](int end) { return std::uniform_int_distribution(0, end - 1)(random); };
  Scheme scheme;
  Problem &problem = scheme.problem;
  for (int j = 0; j < joins; ++j)
    problem.block_ends.push_back(4 * (j + 1));
  const int first = 4 * joins;
  problem.unknowns = first + lengths;
  std::vector<double> is(lengths);
  for (int f = 0; f < lengths; ++f) {
    const int column = first + f;
    is[f] = (f % 2 == 0 ? 2 : 1) * between(80, 140);
    scheme.free_lengths.push_back(f);
    scheme.column_of_length.push_back(column);
    problem.at_least.add(std::array<Term, 1>{{{column, 1.0}}}, 0.7 * is[f]);
    problem.at_least.add(std::array<Term, 1>{{{column, -1.0}}}, -1.4 * is[f]);
    const double aim = is[f] + between(-10, 10);
    problem.wishes[below(2) == 0 ? 0 : 2].add(std::array<Term, 1>{{{column, 1 / aim}}}, 1);
  }
  for (int r = 0; r < rules; ++r) {
    const int a = below(lengths);
    const int b = (a + 1 + below(lengths - 1)) % lengths;
    problem.at_least.add(std::array<Term, 2>{{{first + a, 1.0}, {first + b, -1.0}}}, is[a] - is[b] - between(0, 8));
  }
  for (int j = 0; j < joins; ++j) {
    const int l = 4 * j; // long, band, long, band
    const int long_edge = 2 * below((lengths + 1) / 2);
    const int band = 2 * below(lengths / 2) + 1;
    problem.equal.add(std::array<Term, 3>{{{l, 1.0}, {l + 2, 1.0}, {first + long_edge, -1.0}}}, 0);
    problem.equal.add(std::array<Term, 3>{{{l + 1, 1.0}, {l + 3, 1.0}, {first + band, -1.0}}}, 0);
    problem.equal.add(std::array<Term, 2>{{{l + 1, 1.0}, {l + 3, -1.0}}}, 0);
    const double fullness = is[long_edge] / is[band];
    for (const int s : {l, l + 2}) {
      problem.at_least.add(std::array<Term, 1>{{{s, 1.0}}}, 0);
      problem.limits.add(std::array<Term, 2>{{{s, 0.1}, {s + 1, -0.1 * (fullness - between(0.02, 0.4))}}}, 0);
      problem.limits.add(std::array<Term, 2>{{{s, -0.1}, {s + 1, 0.1 * (fullness + between(0.02, 0.4))}}}, 0);
      const double ideal = fullness + between(-0.5, 0.5);
      problem.wishes[1].add(std::array<Term, 2>{{{s, 0.1}, {s + 1, -0.1 * ideal}}}, 0);
    }
  }
  return scheme;
}

double sum_of_squares(const std::vector<double> &violation) {
  double sum = 0;
  for (const double each : violation)
    sum += each * each;
  return sum;
}

/// The tape as the method says it, and no quicker: for every length the whole problem anew, by a solver of its own.
std::vector<double> one_after_another(const Scheme &scheme) {
  Problem held = scheme.problem;
  Solution best = Solver().solve(held);
  REQUIRE(best.status == Status::optimal);
  for (const int column : scheme.column_of_length) {
    const double below = std::floor(best.x[column] / step) * step;
    const bool lower_first = best.x[column] - below <= step / 2;
    const std::array<double, 2> places{lower_first ? below : below + step, lower_first ? below + step : below};
    held.equal.add(std::array<Term, 1>{{{column, 1.0}}}, 0);
    std::array<Solution, 2> tried;
    int chosen = -1;
    for (int k = 0; k < 2 && chosen < 0; ++k) {
      held.equal.bound.back() = places[k];
      tried[k] = Solver().solve(held, Solver::Wanted::point);
      if (tried[k].status != Status::optimal) continue;
      bool further = false;
      for (std::size_t i = 0; i < best.violation.size(); ++i)
        further = further || tried[k].violation[i] > best.violation[i] + 1e-9 * 100;
      if (!further) chosen = k;
    }
    if (chosen < 0 && sum_of_squares(best.violation) > 0)
      for (int k = 0; k < 2; ++k)
        if (tried[k].status == Status::optimal &&
            (chosen < 0 || sum_of_squares(tried[k].violation) < sum_of_squares(tried[chosen].violation)))
          chosen = k;
    held.equal.bound.back() = chosen < 0 ? best.x[column] : places[chosen];
    if (chosen >= 0) best = tried[chosen];
  }
  return best.x;
}

} // namespace

TEST_CASE("many lengths go on the tape where solving the whole anew for each of them puts them") {
  int with_rules = 0;
  for (std::uint64_t seed = 0; seed < 24; ++seed) {
    INFO("seed " << seed);
    const Scheme scheme = joins_over_lengths(50, 18, static_cast<int>(seed % 3) * 15, seed);
    Solver solver;
    const Allotment made = allot::allot(scheme, {.step = Length{step}}, solver);
    if (made.conflict) continue;
    REQUIRE(!made.too_much_work);
    const std::vector<double> expected = one_after_another(scheme);
    for (std::size_t c = 0; c < expected.size(); ++c)
      CHECK(made.unknowns[c] == Approx(expected[c]).epsilon(0).margin(1e-9));
    with_rules += seed % 3 > 0 ? 1 : 0;
  }
  CHECK(with_rules > 10);
}

TEST_CASE("to put many lengths on the tape takes little more work than to find them") {
  for (std::uint64_t seed = 0; seed < 6; ++seed) {
    INFO("seed " << seed);
    const Scheme scheme = joins_over_lengths(120, 30, 0, seed);
    optimum::Work found;
    optimum::Work put;
    Solver solver;
    solver.count_into(&found);
    REQUIRE(solver.solve(scheme.problem).status == Status::optimal);
    solver.count_into(&put);
    const Allotment made = allot::allot(scheme, {.step = Length{step}}, solver);
    CHECK(std::count(made.off_tape.begin(), made.off_tape.end(), 0) > 15);
    CHECK(put.done() < 5 * found.done()); // with all solved anew for each: 25 times
  }
}
