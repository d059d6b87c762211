// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/certificate.hpp"
#include "solver/optimum/hierarchy.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace gatherwright::optimum;

namespace {

using Row = std::vector<Term>;

/// Segments whose bands are given, their longs unknown, one total: extra wanted in proportion to share * band.
struct Shared {
  std::vector<double> band;
  std::vector<double> share;
  double total = 0;
  double most = 0; ///< fullness; 0: no limit

  Problem problem(bool in_a_block) const {
    Problem made;
    made.unknowns = static_cast<int>(band.size());
    if (in_a_block) made.block_ends = {made.unknowns};
    Row all;
    for (int s = 0; s < made.unknowns; ++s) {
      all.push_back({s, 1.0});
      made.at_least.add(Row{{s, 1.0}}, 0);
      const double weight = 1 / std::sqrt(share[s] * band[s]);
      made.wishes[1].add(Row{{s, weight}}, weight * (1 + share[s]) * band[s]);
      const double scale = 1 / std::sqrt(band[s]);
      if (most > 0) made.limits.add(Row{{s, -scale}}, -scale * most * band[s]);
    }
    made.equal.add(all, total);
    return made;
  }
};

double sum(const std::vector<double> &values) {
  double total = 0;
  for (const double value : values)
    total += value;
  return total;
}

} // namespace

TEST_CASE("with the total given, extra is shared in proportion to share and band") {
  const Shared shared{{120, 60, 45}, {1, 2, 0.5}, 500};
  double wanted = 0;
  for (std::size_t s = 0; s < 3; ++s)
    wanted += shared.share[s] * shared.band[s];
  for (const bool in_a_block : {false, true}) {
    const Problem problem = shared.problem(in_a_block);
    const Solution solved = Hierarchy().solve(problem);
    REQUIRE(solved.status == Status::optimal);
    for (std::size_t s = 0; s < 3; ++s) {
      const double extra = (shared.total - sum(shared.band)) * shared.share[s] * shared.band[s] / wanted;
      CHECK(solved.x[s] == Approx(shared.band[s] + extra).epsilon(1e-13));
    }
    CHECK(solved.loose == std::vector<char>{0, 0, 0});
    CHECK(check(problem, solved).largest() <= 1e-13);
  }
}

TEST_CASE("a segment at its limit leaves the rest to the others") {
  const Shared shared{{100, 100, 100}, {3, 1, 1}, 540, 2.0};
  for (const bool in_a_block : {false, true}) {
    const Problem problem = shared.problem(in_a_block);
    const Solution solved = Hierarchy().solve(problem);
    CHECK(solved.x[0] == Approx(200).epsilon(1e-13));
    CHECK(solved.x[1] == Approx(170).epsilon(1e-13));
    CHECK(solved.x[2] == Approx(170).epsilon(1e-13));
    CHECK(solved.violation == std::vector<double>{0, 0, 0});
    CHECK(check(problem, solved).largest() <= 1e-13);
  }
}

TEST_CASE("where no segment can keep its limit all pass it by the same fullness") {
  const Shared shared{{100, 40, 10}, {1, 5, 2}, 600, 2.5};
  const double fullness = shared.total / sum(shared.band);
  for (const bool in_a_block : {false, true}) {
    const Problem problem = shared.problem(in_a_block);
    const Solution solved = Hierarchy().solve(problem);
    REQUIRE(solved.status == Status::optimal);
    for (std::size_t s = 0; s < 3; ++s) {
      CHECK(solved.x[s] == Approx(fullness * shared.band[s]).epsilon(1e-12));
      CHECK(solved.violation[s] == Approx((fullness - shared.most) * std::sqrt(shared.band[s])).epsilon(1e-11));
    }
    CHECK(check(problem, solved).largest() <= 1e-12);
  }
}

TEST_CASE("a wish goes as far as what must hold lets it, and a later one no further") {
  Problem problem;
  problem.unknowns = 2;
  problem.at_least.add(Row{{0, -2.0}}, -150); // 2 x <= 150
  problem.at_least.add(Row{{0, -1.0}, {1, 1.0}}, -10);
  problem.wishes[0].add(Row{{0, 1.0}}, 90);
  problem.wishes[2].add(Row{{0, 1.0}}, 60);
  problem.wishes[2].add(Row{{1, 1.0}}, 50);
  const Solution solved = Hierarchy().solve(problem);
  CHECK(solved.x[0] == Approx(75).epsilon(1e-15));
  CHECK(solved.x[1] == Approx(65).epsilon(1e-14));
  CHECK(check(problem, solved).largest() <= 1e-14);
}

TEST_CASE("limits come before wishes, and are passed before what must hold is") {
  Problem problem;
  problem.unknowns = 1;
  problem.at_least.add(Row{{0, 1.0}}, 30);
  problem.limits.add(Row{{0, -1.0}}, -20); // x <= 20 cannot hold
  problem.limits.add(Row{{0, 1.0}}, 34);
  problem.wishes[0].add(Row{{0, 1.0}}, 100);
  const Solution solved = Hierarchy().solve(problem);
  // Least squares of x - 20 and 34 - x, from 30 on.
  CHECK(solved.x[0] == Approx(30).epsilon(1e-14));
  CHECK(solved.violation[0] == Approx(10).epsilon(1e-13));
  CHECK(solved.violation[1] == Approx(4).epsilon(1e-13));
  CHECK(check(problem, solved).largest() <= 1e-13);
}

TEST_CASE("an equality written as two inequalities is one") {
  Problem problem;
  problem.unknowns = 3;
  problem.block_ends = {2};
  problem.at_least.add(Row{{0, 1.0}, {2, -1.0}}, 0);
  problem.at_least.add(Row{{0, -3.0}, {2, 3.0}}, 0);
  problem.at_least.add(Row{{0, 1.0}, {1, -1.0}}, 0);
  problem.at_least.add(Row{{1, 2.0}, {2, -2.0}}, 0); // x1 between x2 and x0, which are the same
  problem.wishes[0].add(Row{{2, 1.0}}, 7);
  problem.wishes[1].add(Row{{0, 1.0}}, 100);
  problem.wishes[2].add(Row{{1, 1.0}}, -100);
  const Solution solved = Hierarchy().solve(problem);
  REQUIRE(solved.status == Status::optimal);
  for (const double x : solved.x)
    CHECK(x == Approx(7).epsilon(1e-13));
  CHECK(solved.loose == std::vector<char>{0, 0, 0});
  CHECK(check(problem, solved).largest() <= 1e-12);
}

TEST_CASE("lengths of a thousandth and of a million millimetres stand in one problem") {
  Problem problem;
  problem.unknowns = 4;
  problem.equal.add(Row{{0, 1.0}, {1, 1.0}}, 1e6);
  problem.equal.add(Row{{2, 1.0}, {3, 1.0}}, 1e-3);
  problem.at_least.add(Row{{1, 1.0}, {0, -1.0}}, 0);
  for (int c = 0; c < 4; ++c) {
    problem.at_least.add(Row{{c, 1.0}}, 0);
    const double place = c < 2 ? 8e5 : 2e-4;
    problem.wishes[0].add(Row{{c, 1 / place}}, 1);
  }
  const Solution solved = Hierarchy().solve(problem);
  CHECK(solved.x[0] == Approx(5e5).epsilon(1e-12));
  CHECK(solved.x[1] == Approx(5e5).epsilon(1e-12));
  CHECK(solved.x[2] == Approx(5e-4).epsilon(1e-9));
  CHECK(solved.x[3] == Approx(5e-4).epsilon(1e-9));
}

TEST_CASE("a row of no terms holds or conflicts by its bound alone") {
  Problem problem;
  problem.unknowns = 1;
  problem.equal.add(Row{}, 0);
  problem.at_least.add(Row{}, -1);
  problem.limits.add(Row{}, 2);
  problem.wishes[0].add(Row{}, 5);
  problem.wishes[0].add(Row{{0, 2.0}}, 8);
  const Solution solved = Hierarchy().solve(problem);
  REQUIRE(solved.status == Status::optimal);
  CHECK(solved.x[0] == Approx(4));
  CHECK(solved.violation[0] == Approx(2));
  problem.equal.bound[0] = 1e-30;
  CHECK(Hierarchy().solve(problem).status == Status::conflict);
  CHECK_FALSE(Hierarchy().feasible(problem));
}
