// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/echelon.hpp"

#include <Eigen/Dense>
#include <catch2/catch.hpp>
#include <random>
#include <vector>

using namespace gatherwright::optimum;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

/// Rows of a job's sort: most have one or two terms, some are sums, some depend on others; of length 1.
MatrixXd sparse_rows(int rows, int columns, std::mt19937_64 &random) {
  MatrixXd matrix = MatrixXd::Zero(rows, columns);
  const auto below = [&](int end) { return static_cast<int>(random() % static_cast<unsigned>(end)); };
  for (int i = 0; i < rows; ++i) {
    if (i > 1 && below(5) == 0) {
      matrix.row(i) = 2 * matrix.row(below(i)) - 0.5 * matrix.row(below(i));
    } else {
      const int terms = below(3) == 0 ? 1 + below(columns) : 1 + below(2);
      for (int t = 0; t < terms; ++t)
        matrix(i, below(columns)) = 0.5 * (1 + below(6)) * (below(2) == 0 ? 1 : -1);
    }
    if (matrix.row(i).norm() > 0) matrix.row(i).normalize();
  }
  return matrix;
}

Echelon echelon_of(const MatrixXd &matrix) {
  Echelon::Room room;
  room.rows.begin(static_cast<int>(matrix.rows()), static_cast<int>(matrix.cols()));
  for (int i = 0; i < matrix.rows(); ++i)
    for (int c = 0; c < matrix.cols(); ++c)
      room.rows.set(i, c, matrix(i, c));
  Echelon echelon;
  echelon.substitute(room);
  echelon.factor(1e-11, room);
  return echelon;
}

/// What was done to the rows, done to each column of a matrix.
MatrixXd applied(const Echelon &echelon, const MatrixXd &matrix) {
  MatrixXd places(matrix.rows(), matrix.cols());
  for (int i = 0; i < matrix.rows(); ++i)
    places.row(echelon.place_of(i)) = matrix.row(i);
  for (int c = 0; c < matrix.cols(); ++c)
    echelon.apply(places.col(c).data());
  return places;
}

} // namespace

TEST_CASE("rows in echelon form have the rank of the rows, and are what was done to them makes of them") {
  std::mt19937_64 random(7);
  for (int trial = 0; trial < 300; ++trial) {
    const int rows = 1 + trial % 14;
    const int columns = 1 + trial % 11;
    const MatrixXd matrix = sparse_rows(rows, columns, random);
    const Echelon echelon = echelon_of(matrix);
    const int rank = echelon.rank();
    Eigen::FullPivHouseholderQR<MatrixXd> orthogonal(matrix);
    orthogonal.setThreshold(1e-11);
    REQUIRE(rank == orthogonal.rank());

    const MatrixXd made = applied(echelon, matrix);
    CHECK(made.bottomRows(rows - rank).norm() <= 1e-13);
    MatrixXd decided(rank, rank);
    for (int k = 0; k < rank; ++k) {
      decided.col(k) = made.col(echelon.pivots()[k]).head(rank);
      CHECK(decided.col(k).tail(rank - k - 1).norm() <= 1e-13);
    }
    std::vector<double> free(static_cast<std::size_t>(rank) * (columns - rank));
    echelon.free_columns(free.data());
    for (int c = rank; c < columns; ++c)
      CHECK((Eigen::Map<VectorXd>(free.data() + static_cast<std::ptrdiff_t>(c - rank) * rank, rank) -
             made.col(echelon.pivots()[c]).head(rank))
                .norm() <= 1e-13);

    const VectorXd right = VectorXd::LinSpaced(rank, 1, 2);
    VectorXd solved = right;
    echelon.solve(solved.data());
    CHECK((decided * solved - right).norm() <= 1e-12 * (1 + solved.norm()));
    solved = right;
    echelon.solve_transposed(solved.data());
    CHECK((decided.transpose() * solved - right).norm() <= 1e-12 * (1 + solved.norm()));
  }
}

TEST_CASE("what is done to rows in echelon form has its transpose") {
  std::mt19937_64 random(8);
  for (int trial = 0; trial < 100; ++trial) {
    const int rows = 1 + trial % 9;
    const Echelon echelon = echelon_of(sparse_rows(rows, 1 + trial % 7, random));
    const MatrixXd done = applied(echelon, MatrixXd::Identity(rows, rows));
    MatrixXd transposed(rows, rows); // by place
    transposed.setIdentity();
    for (int c = 0; c < rows; ++c)
      echelon.apply_transposed(transposed.col(c).data());
    for (int i = 0; i < rows; ++i)
      CHECK((transposed.row(echelon.place_of(i)) - done.col(i).transpose()).norm() <= 1e-13);
  }
}

TEST_CASE("a term that is hardly there is not put into other rows, and rows nearly parallel are told") {
  MatrixXd matrix(2, 2);
  matrix << 1e-3, 0, 1, 1;
  const Echelon echelon = echelon_of(matrix);
  CHECK(echelon.rank() == 2);
  const MatrixXd made = applied(echelon, matrix);
  // Put into the other row it would have been a thousand times as much.
  CHECK(made.cwiseAbs().maxCoeff() <= 1 + 1e-3);
  matrix << 1, -1, 1, -1 - 1e-7;
  CHECK(echelon_of(matrix / std::sqrt(2)).is_nearly_parallel());
}
