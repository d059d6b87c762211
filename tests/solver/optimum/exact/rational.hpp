// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <gmpxx.h>
#include <optional>
#include <vector>

/// Linear algebra of small dense matrices in rational numbers: nothing is rounded.
namespace gatherwright::tests::exact {

using Number = mpq_class;
using Vector = std::vector<Number>;
using Matrix = std::vector<Vector>; ///< by rows

Number dot(const Vector &a, const Vector &b);
bool is_zero(const Vector &a);
/// to += factor times
void add(Vector &to, const Number &factor, const Vector &times);
/// The columns' sum of squares and products: rows' rows.
Matrix gram(const Matrix &rows, int columns);

/// A solution of matrix x = right with as many zeros as it has free columns; none: there is no solution.
std::optional<Vector> solve(Matrix matrix, Vector right, int columns);

} // namespace gatherwright::tests::exact
