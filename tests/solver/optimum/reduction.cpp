// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/reduction.hpp"

#include "solver/optimum/open_unknowns.hpp"
#include "tests/solver/optimum/random_problem.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <vector>

using namespace gatherwright;
using optimum::Reduction;
using optimum::RowName;

namespace {

std::vector<RowName> equalities(const optimum::Problem &problem) {
  std::vector<RowName> names;
  for (int i = 0; i < problem.equal.size(); ++i)
    names.push_back({RowName::Set::equal, 0, i});
  return names;
}

/// What a row makes of displacements, over the greatest that it could make of such.
double off(const optimum::Rows &rows, int i, std::span<const double> by) {
  double made = 0;
  double coefficients = 0;
  double greatest = 1; // so far the reduced unknowns go
  for (const double each : by)
    greatest = std::max(greatest, std::abs(each));
  for (const optimum::Term &term : rows.row(i)) {
    made += term.value * by[term.column];
    coefficients += std::abs(term.value);
  }
  return coefficients > 0 ? std::abs(made) / (coefficients * greatest) : 0;
}

/// Numbers for the reduced unknowns.
std::vector<double> drawn(int count, std::mt19937_64 &random) {
  std::vector<double> y(count);
  for (double &each : y)
    each = static_cast<double>(random() % 2001) / 1000 - 1;
  return y;
}

} // namespace

TEST_CASE("places of open unknowns and open unknowns of places are each other's inverse, whatever is fixed") {
  std::mt19937_64 random(3);
  for (int count = 1; count < 30; ++count) {
    optimum::OpenUnknowns open;
    open.begin(count);
    std::vector<char> fixed(count, 0);
    for (int round = 0; round < 4; ++round) {
      std::vector<int> some;
      for (int s = 0; s < count; ++s)
        if (fixed[s] == 0 && random() % 4 == 0) some.push_back(s);
      open.fix(some);
      for (const int s : some)
        fixed[s] = 1;
      int seen = 0;
      for (int s = 0; s < count; ++s) {
        REQUIRE(open.is_fixed(s) == (fixed[s] != 0));
        if (fixed[s] != 0) continue;
        CHECK(open.place(s) == seen);
        CHECK(open.at(seen) == s);
        ++seen;
      }
      CHECK(open.size() == seen);
    }
  }
}

TEST_CASE("wherever what is free goes, rows that are held stay as they are") {
  std::mt19937_64 random(4);
  int moved_within = 0;
  for (std::uint64_t seed = 0; seed < 600; ++seed) {
    const optimum::Problem problem = tests::RandomProblem(seed).make({});
    Reduction reduction;
    REQUIRE(reduction.begin(problem));
    REQUIRE(reduction.hold(equalities(problem), Reduction::Hold::at_point)); // at 0, where the point begins
    optimum::ReducedRows kept;
    if (reduction.append_kept(kept) > 0) continue; // y is then not free to be anything
    const std::vector<double> y = drawn(reduction.layout().size(), random);
    std::vector<double> by(problem.unknowns);
    reduction.displacement(y, by);
    INFO("seed " << seed);
    for (int i = 0; i < problem.equal.size(); ++i)
      CHECK(off(problem.equal, i, by) <= 1e-10); // a row may depend on others to within 1e-11 of itself
    const std::vector<double> before(reduction.point().begin(), reduction.point().end());
    reduction.move(y);
    for (int c = 0; c < problem.unknowns; ++c)
      CHECK(reduction.point()[c] == before[c] + by[c]);
    if (problem.equal.size() > 0 && !y.empty()) ++moved_within;
  }
  CHECK(moved_within > 50);
}

TEST_CASE("each unknown's row of the map is what it moves by") {
  std::mt19937_64 random(5);
  for (std::uint64_t seed = 0; seed < 300; ++seed) {
    const optimum::Problem problem = tests::RandomProblem(seed).make({});
    Reduction reduction;
    REQUIRE(reduction.begin(problem));
    REQUIRE(reduction.hold(equalities(problem), Reduction::Hold::at_bound));
    const std::vector<double> y = drawn(reduction.layout().size(), random);
    std::vector<double> by(problem.unknowns);
    reduction.displacement(y, by);
    std::vector<double> row(y.size());
    for (int c = 0; c < problem.unknowns; ++c) {
      reduction.row_of(c, row);
      double sum = 0;
      double size = 0;
      for (std::size_t k = 0; k < y.size(); ++k) {
        sum += row[k] * y[k];
        size += std::abs(row[k] * y[k]);
      }
      INFO("seed " << seed << ", unknown " << c);
      CHECK(std::abs(sum - by[c]) <= 1e-15 * (static_cast<double>(y.size()) + 1) * size);
    }
  }
}

TEST_CASE("a gradient made of held rows is given back to them") {
  std::mt19937_64 random(6);
  int given = 0;
  for (std::uint64_t seed = 0; seed < 600; ++seed) {
    const optimum::Problem problem = tests::RandomProblem(seed).make({});
    Reduction reduction;
    REQUIRE(reduction.begin(problem));
    REQUIRE(reduction.hold(equalities(problem), Reduction::Hold::at_bound));
    optimum::ReducedRows kept;
    if (reduction.append_kept(kept) > 0 || problem.equal.size() == 0) continue; // their multipliers come from outside
    std::vector<double> gradient(problem.unknowns, 0.0);
    std::vector<double> size(problem.unknowns, 0.0);
    for (int i = 0; i < problem.equal.size(); ++i) {
      const double times = static_cast<double>(random() % 9) - 4;
      for (const optimum::Term &term : problem.equal.row(i)) {
        gradient[term.column] += times * term.value;
        size[term.column] += std::abs(times * term.value);
      }
    }
    double largest = 0;
    for (const double each : size)
      largest = std::max(largest, each);
    std::vector<double> rest = gradient;
    optimum::Multipliers found;
    found.equal.assign(problem.equal.size(), 0.0);
    reduction.multipliers({}, rest, found);
    INFO("seed " << seed);
    for (int c = 0; c < problem.unknowns; ++c) {
      double sum = 0;
      for (int i = 0; i < problem.equal.size(); ++i)
        for (const optimum::Term &term : problem.equal.row(i))
          if (term.column == c) sum += found.equal[i] * term.value;
      CHECK(std::abs(sum - gradient[c]) <= 1e-9 * largest);
      CHECK(std::abs(rest[c]) <= 1e-9 * largest);
    }
    ++given;
  }
  CHECK(given > 50);
}
