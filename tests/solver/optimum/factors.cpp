// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/active_set.hpp"
#include "solver/optimum/arrow_factor.hpp"
#include "solver/optimum/householder.hpp"
#include "solver/optimum/proximal_descent.hpp"

#include <Eigen/Dense>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace gatherwright::optimum;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

/// Three blocks of 2, 0 and 3 locals; the shared unknowns each touches.
Layout some_layout() {
  Layout layout;
  layout.shared = 4;
  layout.local_start = {4, 6, 6, 9};
  layout.columns = {4, 5, 0, 2, 1, 6, 7, 8, 2, 3};
  layout.column_start = {0, 4, 5, 10};
  return layout;
}

struct Sparse {
  std::vector<Term> terms;
  int block = -1;
  RowView view() const { return {terms, block}; }
};

class Rows9 {
public:
  explicit Rows9(std::uint64_t seed) : random_(seed) {}
  double number() { return std::uniform_real_distribution<double>(-3, 3)(random_); }
  int whole(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }
  Sparse row(const Layout &layout, bool single) {
    Sparse made;
    made.block = whole(-1, 2);
    std::vector<int> columns{0, 1, 2, 3};
    if (made.block >= 0) {
      const auto own = layout.block_columns(made.block);
      columns.assign(own.begin(), own.end());
    }
    if (single) {
      made.terms = {{columns[whole(0, static_cast<int>(columns.size()) - 1)], number()}};
      return made;
    }
    for (const int column : columns)
      if (whole(0, 2) > 0) made.terms.push_back({column, number()});
    return made;
  }

private:
  std::mt19937_64 random_;
};

VectorXd dense(const Sparse &row) {
  VectorXd made = VectorXd::Zero(9);
  for (const Term &term : row.terms)
    made[term.column] = term.value;
  return made;
}

} // namespace

TEST_CASE("the factor of rows in arrow shape is that of the dense rows") {
  const Layout layout = some_layout();
  for (std::uint64_t seed = 0; seed < 60; ++seed) {
    INFO("seed " << seed);
    Rows9 random(seed);
    const double weight = random.whole(0, 1) ? 0.5 : 1e-3;
    const bool single = seed % 3 == 0;
    ArrowFactor factor;
    factor.reset(layout, weight);
    std::vector<double> centre(9);
    for (double &c : centre)
      c = random.number();
    factor.aim_at(centre);
    MatrixXd square = weight * weight * MatrixXd::Identity(9, 9);
    VectorXd right = weight * weight * Eigen::Map<VectorXd>(centre.data(), 9);
    for (int i = 0; i < 25; ++i) {
      const Sparse row = random.row(layout, single || i % 2);
      const double bound = random.number();
      factor.insert(row.view(), bound);
      square += dense(row) * dense(row).transpose();
      right += bound * dense(row);
    }
    factor.finish();
    const Eigen::LDLT<MatrixXd> exact(square);
    // Conditions reach 1e7 where the weight is small.
    std::vector<double> y(9), w(9);
    factor.solve(factor.right_side(), y);
    CHECK((square * Eigen::Map<VectorXd>(y.data(), 9) - right).norm() <= 1e-12 * (1 + right.norm()) / weight);
    const Sparse normal = random.row(layout, false);
    const double length = factor.solve_both(normal.view(), w, y);
    const VectorXd expected = exact.solve(dense(normal));
    CHECK((Eigen::Map<VectorXd>(y.data(), 9) - expected).norm() <= 1e-9 * (1 + expected.norm()));
    CHECK(length == Approx(dense(normal).dot(expected)).epsilon(1e-9).margin(1e-12));
    std::vector<double> whole(9), from_whole(9);
    Eigen::Map<VectorXd>(whole.data(), 9) = dense(normal);
    CHECK(factor.solve_both(whole, from_whole) == Approx(length).epsilon(1e-12));
    for (int c = 0; c < 9; ++c)
      CHECK(from_whole[c] == Approx(y[c]).epsilon(1e-10).margin(1e-12));
    // The centre moves by a step, the minimum as it must.
    std::vector<double> step(9), moved(9), before(9), after(9);
    for (double &c : step)
      c = random.number();
    factor.solve(factor.right_side(), before);
    factor.move_centre(weight, step, moved);
    factor.solve(factor.right_side(), after);
    const VectorXd by = exact.solve(VectorXd(weight * weight * Eigen::Map<VectorXd>(step.data(), 9)));
    for (int c = 0; c < 9; ++c) {
      CHECK(moved[c] == Approx(by[c]).epsilon(1e-8).margin(1e-9));
      CHECK(after[c] - before[c] == Approx(by[c]).epsilon(1e-8).margin(1e-8));
    }
  }
}

TEST_CASE("a proximal term added to a factor is its square added") {
  const Layout layout = some_layout();
  for (const bool single : {true, false}) {
    Rows9 random(7);
    ArrowFactor factor;
    factor.reset(layout, 0);
    MatrixXd square = 0.25 * MatrixXd::Identity(9, 9);
    for (int i = 0; i < 12; ++i) {
      const Sparse row = random.row(layout, single);
      factor.insert(row.view(), 0);
      square += dense(row) * dense(row).transpose();
    }
    factor.add_proximal(0.5);
    factor.finish();
    const Sparse normal = random.row(layout, false);
    std::vector<double> y(9), w(9);
    factor.solve_both(normal.view(), w, y);
    CHECK((square * Eigen::Map<VectorXd>(y.data(), 9) - dense(normal)).norm() <= 1e-12);
  }
}

TEST_CASE("the pivoted factors of a matrix multiply to it, and tell its rank") {
  std::mt19937_64 random(3);
  std::uniform_real_distribution<double> number(-1, 1);
  for (int trial = 0; trial < 40; ++trial) {
    PivotedQr qr;
    qr.rows = 1 + trial % 6;
    qr.columns = 1 + trial % 5;
    const int rank = std::min({qr.rows, qr.columns, 1 + trial % 3});
    MatrixXd left(qr.rows, rank), right(rank, qr.columns);
    for (double &value : left.reshaped())
      value = number(random);
    for (double &value : right.reshaped())
      value = number(random);
    const MatrixXd matrix = left * right;
    qr.matrix.assign(matrix.data(), matrix.data() + matrix.size());
    qr.factor(1e-11);
    CHECK(qr.rank == rank);
    for (int c = 0; c < qr.columns; ++c) {
      VectorXd column = VectorXd::Zero(qr.rows);
      for (int i = 0; i <= std::min(c, rank - 1); ++i)
        column[i] = qr.column(c)[i];
      for (int k = rank - 1; k >= 0; --k)
        qr.reflect(k, column.data());
      CHECK((column - matrix.col(qr.pivots[c])).norm() <= 1e-13);
    }
  }
}

TEST_CASE("the active set of a strictly convex problem satisfies its conditions, soft constraints too") {
  const Layout layout = some_layout();
  int soft_missed = 0;
  int infeasible = 0;
  for (std::uint64_t seed = 0; seed < 300; ++seed) {
    INFO("seed " << seed);
    Rows9 random(seed + 100);
    ArrowFactor factor;
    factor.reset(layout, 0.1);
    MatrixXd square = 0.01 * MatrixXd::Identity(9, 9);
    VectorXd right = VectorXd::Zero(9);
    for (int i = 0; i < 9; ++i) {
      const Sparse row = random.row(layout, false);
      const double bound = 4 * random.number();
      factor.insert(row.view(), bound);
      square += dense(row) * dense(row).transpose();
      right += bound * dense(row);
    }
    factor.finish();
    Constraints constraints;
    std::vector<Sparse> rows;
    constraints.equalities = random.whole(0, 2);
    constraints.soft_from = constraints.equalities + random.whole(2, 8);
    const int count = constraints.soft_from + random.whole(0, 6);
    for (int i = 0; i < count; ++i) {
      rows.push_back(random.row(layout, i % 3 == 0));
      ReducedRows::Pen pen = constraints.rows.pen(1, rows.back().terms.size());
      for (const Term &term : rows.back().terms)
        pen.put(term.column, term.value);
      pen.end_row(rows.back().block, random.number(), dense(rows.back()).norm());
      constraints.rows.take(pen);
    }
    ActiveSet active;
    const ActiveSet::Outcome outcome = active.solve(factor, constraints, 10);
    VectorXd gradient = VectorXd::Zero(9);
    double bound = 0;
    std::vector<double> multipliers(count, 0.0);
    for (const auto &[constraint, multiplier] : active.multipliers()) {
      multipliers[constraint] = multiplier;
      gradient += multiplier * dense(rows[constraint]);
      bound += multiplier * constraints.rows[constraint].rest;
      if (constraint >= constraints.equalities) CHECK(multiplier >= 0);
    }
    if (outcome == ActiveSet::Outcome::infeasible) {
      ++infeasible;
      CHECK(gradient.norm() <= 1e-9);
      CHECK(bound > 0);
      continue;
    }
    REQUIRE(outcome == ActiveSet::Outcome::optimal);
    const Eigen::Map<const VectorXd> y(active.point().data(), 9);
    CHECK((square * y - right - gradient).norm() <= 1e-10 * (1 + right.norm() + gradient.norm()));
    for (int i = 0; i < count; ++i) {
      const bool soft = i >= constraints.soft_from;
      const double spared = dense(rows[i]).dot(y) - constraints.rows[i].rest + (soft ? multipliers[i] : 0);
      if (i < constraints.equalities)
        CHECK(std::abs(spared) <= 1e-10);
      else
        CHECK(spared >= -1e-10);
      if (multipliers[i] != 0) CHECK(std::abs(spared) <= 1e-10);
      soft_missed += soft && multipliers[i] > 0;
    }
  }
  CHECK(soft_missed > 100);
  CHECK(infeasible > 5);
}

TEST_CASE("wherever the search begins, rows that cannot all hold are missed by least squares, and by the same") {
  const Layout layout = some_layout();
  int missed_rows = 0;
  int solved = 0;
  for (std::uint64_t seed = 0; seed < 300; ++seed) {
    INFO("seed " << seed);
    Rows9 random(seed + 500);
    Constraints constraints;
    std::vector<Sparse> rows;
    constraints.soft_from = 3;
    const int count = constraints.soft_from + random.whole(8, 20);
    for (int i = 0; i < count; ++i) {
      rows.push_back(random.row(layout, i % 3 == 0));
      ReducedRows::Pen pen = constraints.rows.pen(1, rows.back().terms.size());
      for (const Term &term : rows.back().terms)
        pen.put(term.column, term.value);
      pen.end_row(rows.back().block, random.number(), dense(rows.back()).norm());
      constraints.rows.take(pen);
    }
    std::vector<VectorXd> missed;
    for (const double far : {0.0, 2.0, 1e6}) {
      std::vector<double> near(9);
      for (double &c : near)
        c = far * random.number();
      ProximalDescent descent;
      if (descent.miss_least(constraints, layout, 10, near) != ProximalDescent::Outcome::optimal) continue;
      const Eigen::Map<const VectorXd> y(descent.active_set().point().data(), 9);
      VectorXd gradient = VectorXd::Zero(9);
      missed.push_back(VectorXd::Zero(count));
      for (int i = 0; i < count; ++i) {
        const double by = constraints.rows[i].rest - dense(rows[i]).dot(y);
        if (i < constraints.soft_from) CHECK(by <= 1e-9);
        missed.back()[i] = i < constraints.soft_from ? 0 : std::max(by, 0.0);
        gradient += missed.back()[i] * dense(rows[i]);
      }
      for (const auto &[constraint, multiplier] : descent.active_set().multipliers())
        if (constraint < constraints.soft_from) {
          CHECK(multiplier >= 0);
          gradient += multiplier * dense(rows[constraint]);
        }
      CHECK(gradient.norm() <= 1e-8);
      CHECK((missed.back() - missed.front()).norm() <= 1e-8);
      missed_rows += static_cast<int>((missed.back().array() > 1e-6).count());
      ++solved;
    }
  }
  CHECK(solved > 700);
  CHECK(missed_rows > 500);
}
