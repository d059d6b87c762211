// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/solver/optimum/exact/rational.hpp"

namespace gatherwright::tests::exact {

struct Row {
  Vector terms;
  Number bound;

  Number rest(const Vector &y) const { return dot(terms, y) - bound; }
};

/// The least of the sum of squares of wishes' rests and of the amounts by which soft rows fall short of their bounds,
/// while hard rows reach theirs.
struct LeastSquares {
  int unknowns = 0;
  std::vector<Row> wishes;
  std::vector<Row> soft;
  std::vector<Row> hard;
};

struct Least {
  Vector y;
  Vector multipliers; ///< of hard rows, >= 0, above 0 only where the row is met exactly
};

/// The least, from a point that keeps the hard rows. Whatever way led there, what comes back has been checked against
/// the conditions of Karush, Kuhn and Tucker without rounding, which for a convex problem prove it; std::logic_error
/// otherwise.
///
/// The way is a primal active set method. It comes time and again to the least of a set of rows held as equalities,
/// each time to a lower one, and there are finitely many sets, so it ends. Where rows meet in one point, the
/// multipliers are themselves a least squares problem (see `balance`), which leaves either the proof or a direction
/// that goes down strictly: so it does not circle.
Least least(const LeastSquares &problem, Vector start);

/// Multipliers >= 0 of rows, such that their sum is nearest to `target`, by the method of Lawson & Hanson ("Solving
/// Least Squares Problems", 1974, ch. 23), finite without rounding. `left` is at right angles to the rows with
/// multipliers above 0 (`used`, which are independent) and makes no acute angle with any other.
struct Balance {
  Vector multipliers;
  std::vector<int> used;
  Vector left;
};
Balance balance(const Matrix &rows, const Vector &target);

} // namespace gatherwright::tests::exact
