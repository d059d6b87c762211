// SPDX-License-Identifier: GPL-3.0-or-later
#include "bench/alglib_qp.hpp"

#include <libalglib/optimization.h>
#include <limits>

namespace gatherwright::bench {

namespace {

/// As ALGLIB takes a side that is without bound.
constexpr double unbounded = std::numeric_limits<double>::infinity();

/// The solvers' own default for their stopping test.
constexpr double as_far_as_it_goes = 0;

/// A row to each column of a matrix that stands column by column, without what is 0 in it.
alglib::sparsematrix sparse_rows(const std::vector<double> &columns, int rows_in_column, int count) {
  alglib::sparsematrix matrix;
  alglib::sparsecreate(count, rows_in_column, matrix);
  for (int i = 0; i < count; ++i)
    for (int j = 0; j < rows_in_column; ++j)
      if (const double value = columns[i * rows_in_column + j]; value != 0) alglib::sparseset(matrix, i, j, value);
  alglib::sparseconverttocrs(matrix);
  return matrix;
}

alglib::real_2d_array dense_rows(const std::vector<double> &columns, int rows_in_column, int count) {
  alglib::real_2d_array matrix;
  matrix.setcontent(count, rows_in_column, columns.data());
  return matrix;
}

} // namespace

std::span<const double> AlglibQp::solve(const DenseProgramme &programme) {
  const int n = programme.unknowns;
  alglib::minqpstate state;
  alglib::minqpcreate(n, state);
  alglib::real_1d_array linear;
  linear.setlength(n);
  for (int i = 0; i < n; ++i)
    linear[i] = -programme.linear[i];
  alglib::minqpsetlinearterm(state, linear);
  alglib::real_1d_array low;
  alglib::real_1d_array high;
  low.setcontent(programme.constraints, programme.bound.data());
  high.setlength(programme.constraints);
  for (int i = 0; i < programme.constraints; ++i)
    high[i] = i < programme.equalities ? programme.bound[i] : unbounded;
  if (form_ == Form::dense) {
    alglib::minqpsetquadraticterm(state, dense_rows(programme.hessian, n, n));
    alglib::minqpsetlc2dense(state, dense_rows(programme.normals, n, programme.constraints), low, high);
    alglib::minqpsetalgodenseipm(state, as_far_as_it_goes);
  } else {
    alglib::minqpsetquadratictermsparse(state, sparse_rows(programme.hessian, n, n), true);
    alglib::minqpsetlc2(state, sparse_rows(programme.normals, n, programme.constraints), low, high,
                        programme.constraints);
    alglib::minqpsetalgosparseipm(state, as_far_as_it_goes);
  }
  alglib::minqpoptimize(state);
  alglib::real_1d_array found;
  alglib::minqpreport report;
  alglib::minqpresults(state, found, report);
  if (report.terminationtype <= 0) return {};
  solution_.assign(found.getcontent(), found.getcontent() + n);
  return solution_;
}

} // namespace gatherwright::bench
