// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/certificate.hpp"
#include "solver/optimum/solver.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <random>

using namespace gatherwright::optimum;

namespace {

using Row = std::vector<Term>;

/// A problem whose answer comes first: the point, which rows bind it and with what multipliers, level by level. Every
/// level gets a wish that is off by 1 along the sum its multipliers make, so its gradient is that sum; its other wishes
/// are met. What the certificate asks for then holds by construction, so the point is an optimum.
class Manufactured {
public:
  Problem problem;
  std::vector<double> optimum;
  std::vector<double> violation;

  explicit Manufactured(std::uint64_t seed) : random_(seed) {}

  int whole(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }
  double between(double low, double high) { return std::uniform_real_distribution<double>(low, high)(random_); }

  double value(const Row &row) const {
    double sum = 0;
    for (const Term &term : row)
      sum += term.value * optimum[term.column];
    return sum;
  }

  void equal(const Row &row) {
    problem.equal.add(row, value(row));
    any_sign_.push_back(row);
  }
  void at_least(const Row &row, double spared) {
    problem.at_least.add(row, value(row) - spared);
    if (spared == 0) at_least_zero_.push_back(row);
  }
  void limit(const Row &row, double spared) {
    problem.limits.add(row, value(row) - spared);
    violation.push_back(0);
    if (spared == 0) at_least_zero_.push_back(row);
  }
  /// Limits that cannot hold: a row and its reverse, each off by as much; or one that a row of level 0 stands against.
  void missed_limit(const Row &row, double by, bool against_must) {
    problem.limits.add(row, value(row) + by);
    violation.push_back(by);
    any_sign_.push_back(row);
    Row reverse = row;
    for (Term &term : reverse)
      term.value = -term.value;
    if (against_must) {
      at_least(reverse, 0);
      return;
    }
    problem.limits.add(reverse, value(reverse) + by);
    violation.push_back(by);
  }

  /// A level's wishes: those that are met, and one for each block that is not.
  void wishes(int level, const std::vector<Row> &met) {
    std::map<int, std::map<int, double>> pull; // by block
    const auto add = [&](const Row &row, double multiplier) {
      for (const Term &term : row)
        pull[block_of(row)][term.column] += multiplier * term.value;
    };
    for (const Row &row : at_least_zero_)
      if (whole(0, 2) > 0) add(row, between(0.1, 1));
    for (const Row &row : any_sign_)
      if (whole(0, 2) == 0) add(row, between(-1, 1));
    std::vector<Row> made = met;
    for (const Row &row : met)
      problem.wishes[level].add(row, value(row));
    for (const auto &[block, terms] : pull) {
      Row row;
      for (const auto &[column, factor] : terms)
        row.push_back({column, factor});
      problem.wishes[level].add(row, value(row) - 1);
      made.push_back(row);
    }
    any_sign_.insert(any_sign_.end(), made.begin(), made.end());
  }

private:
  int block_of(const Row &row) const {
    for (int j = 0; j < problem.blocks(); ++j)
      if (row[0].column < problem.block_ends[j]) return j;
    return -1;
  }

  std::mt19937_64 random_;
  std::vector<Row> at_least_zero_; ///< binding rows whose multipliers are >= 0
  std::vector<Row> any_sign_;
};

Row random_row(Manufactured &made) {
  const Problem &problem = made.problem;
  const int block = problem.blocks() > 0 ? made.whole(-1, problem.blocks() - 1) : -1;
  const auto coefficient = [&] { return (made.whole(0, 1) ? 1 : -1) * made.between(0.3, 2); };
  Row row;
  if (block >= 0) {
    const int begin = block == 0 ? 0 : problem.block_ends[block - 1];
    row.push_back({made.whole(begin, problem.block_ends[block] - 1), coefficient()});
    for (int c = begin; c < problem.block_ends[block]; ++c)
      if (c != row[0].column && made.whole(0, 1)) row.push_back({c, coefficient()});
  }
  for (int c = problem.shared_begin(); c < problem.unknowns; ++c)
    if (made.whole(0, 2) == 0) row.push_back({c, coefficient()});
  if (row.empty()) row.push_back({problem.unknowns - 1, 1.0});
  return row;
}

Row times(double factor, Row row) {
  for (Term &term : row)
    term.value *= factor;
  return row;
}

Manufactured random_made(std::uint64_t seed) {
  Manufactured made(seed);
  const int blocks = made.whole(0, 3);
  for (int j = 0; j < blocks; ++j) {
    made.problem.unknowns += made.whole(1, 4);
    made.problem.block_ends.push_back(made.problem.unknowns);
  }
  made.problem.unknowns += made.whole(1, 4);
  for (int c = 0; c < made.problem.unknowns; ++c)
    made.optimum.push_back(made.between(-9, 9));
  for (int i = made.whole(0, 2); i > 0; --i) {
    const Row row = random_row(made);
    made.equal(row);
    if (made.whole(0, 1)) made.equal(times(-0.5, row));
  }
  for (int i = made.whole(0, 7); i > 0; --i) {
    const Row row = random_row(made);
    const double spared = made.whole(0, 1) ? 0 : made.between(0.1, 3);
    made.at_least(row, spared);
    if (made.whole(0, 3) == 0) made.at_least(times(7, row), 7 * spared);
    if (made.whole(0, 3) == 0 && spared == 0) made.at_least(times(-2, row), 0);
  }
  for (int i = made.whole(0, 4); i > 0; --i) {
    made.limit(random_row(made), made.whole(0, 1) ? 0 : made.between(0.1, 3));
    if (made.whole(0, 2) == 0) made.missed_limit(random_row(made), made.between(0.1, 2), made.whole(0, 1));
  }
  for (int level = 0; level < wish_levels; ++level) {
    std::vector<Row> met;
    for (int i = made.whole(0, 3); i > 0; --i)
      met.push_back(random_row(made));
    made.wishes(level, met);
  }
  return made;
}

/// Ten joins of two segments and five free lengths, as jobs have them: 45 unknowns.
Manufactured job_made(std::uint64_t seed) {
  Manufactured made(seed);
  constexpr int joins = 10;
  const int first = 4 * joins;
  made.problem.unknowns = first + 5;
  made.optimum.resize(first + 5);
  std::vector<double> &x = made.optimum;
  for (int f = 0; f < 5; ++f)
    x[first + f] = f % 2 ? made.between(150, 300) : made.between(400, 700);
  std::vector<Row> aims, evenness, rest;
  for (int f = 0; f < 5; ++f)
    (f < 2 ? aims : rest).push_back({{first + f, 1 / x[first + f]}});
  for (int j = 0; j < joins; ++j)
    made.problem.block_ends.push_back(4 * (j + 1));
  for (int j = 0; j < joins; ++j) {
    const int l = 4 * j;
    const int long_edge = first + 2 * (j % 3);
    const int band = first + 1 + 2 * (j % 2);
    const double whole_band = j % 2 ? x[band] : x[long_edge] / made.between(1.5, 2.5);
    x[l + 1] = x[l + 3] = whole_band / 2;
    x[l] = x[long_edge] * made.between(0.4, 0.6);
    x[l + 2] = x[long_edge] - x[l];
    made.equal({{l, 1.0}, {l + 2, 1.0}, {long_edge, -1.0}});
    Row bands{{l + 1, 1.0}, {l + 3, 1.0}};
    if (j % 2) bands.push_back({band, -1.0});
    made.equal(bands);
    made.equal({{l + 1, 1.0}, {l + 3, -1.0}});
    if (j % 4 == 1) made.equal(times(2, bands));
    for (const int s : {l, l + 2}) {
      made.at_least({{s, 1.0}}, x[s]);
      const double fullness = x[s] / x[s + 1];
      const int at = made.whole(0, 3); // within, at the least, at the most, past it
      const double least = at == 1 ? fullness : 0.8 * fullness;
      const double most = at == 2 ? fullness : 1.2 * fullness;
      const Row low{{s, 0.1}, {s + 1, -0.1 * least}};
      const Row high{{s, -0.1}, {s + 1, 0.1 * most}};
      made.limit(low, at == 1 ? 0 : made.value(low));
      made.limit(high, at == 2 ? 0 : made.value(high));
      if (at == 3) made.missed_limit({{s, -0.1}, {s + 1, 0.1 * fullness}}, made.between(0.1, 1), made.whole(0, 1));
      evenness.push_back({{s, 0.1}, {s + 1, -0.1 * made.between(1.8, 2.4)}});
    }
  }
  made.at_least({{first, 1.0}, {first + 1, -1.0}}, 0);
  made.at_least({{first, -1.0}, {first + 1, 1.0}}, 0);
  made.wishes(0, aims);
  made.wishes(1, evenness);
  made.wishes(2, rest);
  return made;
}

/// The violations and what each wish comes to are the same at every optimum; so is every unknown that is not loose.
void check_found(const Manufactured &made, const Solution &found, double allowed) {
  REQUIRE(found.status == Status::optimal);
  CHECK(check(made.problem, found).largest() <= 1e-9);
  double size = 1;
  for (const double x : made.optimum)
    size = std::max(size, std::abs(x));
  for (std::size_t i = 0; i < made.violation.size(); ++i)
    CHECK(std::abs(found.violation[i] - made.violation[i]) <= allowed * size);
  for (const Rows &wishes : made.problem.wishes)
    for (int i = 0; i < wishes.size(); ++i) {
      double off = 0;
      double factor = 0;
      for (const Term &term : wishes.row(i)) {
        off += term.value * (found.x[term.column] - made.optimum[term.column]);
        factor = std::max(factor, std::abs(term.value));
      }
      CHECK(std::abs(off) <= allowed * factor * size);
    }
  for (std::size_t c = 0; c < made.optimum.size(); ++c)
    if (!found.loose[c]) CHECK(std::abs(found.x[c] - made.optimum[c]) <= allowed * size);
}

} // namespace

TEST_CASE("optima that were chosen first are found, whatever rows depend on each other") {
  int settled = 0;
  int missed = 0;
  for (std::uint64_t seed = 0; seed < 1500; ++seed) {
    INFO("seed " << seed);
    const Manufactured made = random_made(seed);
    Solver solver; // each may spend as much on digits as it needs
    const Solution &found = solver.solve(made.problem);
    // Random rows come as near to depending on each other as 1e-4; what was chosen is found to that much less.
    check_found(made, found, 1e-8);
    settled += std::none_of(found.loose.begin(), found.loose.end(), [](char loose) { return loose; });
    missed += std::any_of(made.violation.begin(), made.violation.end(), [](double by) { return by > 0; });
  }
  CHECK(settled > 300);
  CHECK(missed > 300);
}

TEST_CASE("optima of joins that meet in free lengths are found to rounding") {
  Solver solver;
  for (std::uint64_t seed = 0; seed < 100; ++seed) {
    INFO("seed " << seed);
    const Manufactured made = job_made(seed);
    check_found(made, solver.solve(made.problem), 1e-10);
  }
}

TEST_CASE("the point alone is the same point") {
  Solver solver;
  for (std::uint64_t seed = 0; seed < 200; ++seed) {
    const Manufactured made = random_made(seed);
    const Solution whole = solver.solve(made.problem);
    const Solution &point = solver.solve(made.problem, Solver::Wanted::point);
    CHECK(whole.x == point.x);
    CHECK(whole.violation == point.violation);
  }
}
