// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/solver/optimum/exact/rational.hpp"

#include <algorithm>
#include <utility>

namespace gatherwright::tests::exact {

Number dot(const Vector &a, const Vector &b) {
  Number sum = 0;
  for (std::size_t i = 0; i < a.size(); ++i)
    if (sgn(a[i]) != 0 && sgn(b[i]) != 0) sum += a[i] * b[i];
  return sum;
}

bool is_zero(const Vector &a) {
  return std::all_of(a.begin(), a.end(), [](const Number &number) { return sgn(number) == 0; });
}

void add(Vector &to, const Number &factor, const Vector &times) {
  if (sgn(factor) == 0) return;
  for (std::size_t i = 0; i < to.size(); ++i)
    if (sgn(times[i]) != 0) to[i] += factor * times[i];
}

Matrix gram(const Matrix &rows, int columns) {
  Matrix sum(columns, Vector(columns));
  for (const Vector &row : rows)
    for (int c = 0; c < columns; ++c)
      add(sum[c], row[c], row);
  return sum;
}

std::optional<Vector> solve(Matrix matrix, Vector right, int columns) {
  std::vector<int> pivots; // the column of each row that has one
  for (int column = 0; column < columns && pivots.size() < matrix.size(); ++column) {
    std::size_t from = pivots.size();
    while (from < matrix.size() && sgn(matrix[from][column]) == 0)
      ++from;
    if (from == matrix.size()) continue;
    const std::size_t at = pivots.size();
    std::swap(matrix[at], matrix[from]);
    std::swap(right[at], right[from]);
    for (std::size_t row = 0; row < matrix.size(); ++row) {
      if (row == at || sgn(matrix[row][column]) == 0) continue;
      const Number factor = -matrix[row][column] / matrix[at][column];
      add(matrix[row], factor, matrix[at]);
      right[row] += factor * right[at];
    }
    pivots.push_back(column);
  }
  for (std::size_t row = pivots.size(); row < matrix.size(); ++row)
    if (sgn(right[row]) != 0) return std::nullopt;
  Vector x(columns);
  for (std::size_t row = 0; row < pivots.size(); ++row)
    x[pivots[row]] = right[row] / matrix[row][pivots[row]];
  return x;
}

} // namespace gatherwright::tests::exact
