// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/wide.hpp"

#include <span>
#include <vector>

namespace gatherwright::optimum {

/// Dense rows of wide numbers against bounds, as many columns each.
struct WideRows {
  int columns = 0;
  std::vector<Wide> values;
  std::vector<Wide> bound;
  std::vector<Wide> norm; ///< Euclidean
  std::vector<Wide> size; ///< of the numbers that the bound was computed from

  int count() const { return static_cast<int>(bound.size()); }
  std::span<const Wide> row(int i) const {
    return std::span(values).subspan(static_cast<std::size_t>(i) * columns, columns);
  }
  void clear(int new_columns) {
    columns = new_columns;
    values.clear();
    bound.clear();
    norm.clear();
    size.clear();
  }
  /// Appends a row of 0, to be filled in; its norm is `find_norm`'s to find.
  std::span<Wide> add(Wide value, Wide numbers) {
    values.resize(values.size() + columns, Wide(0));
    bound.push_back(value);
    norm.push_back(0);
    size.push_back(numbers);
    return std::span(values).last(columns);
  }
  void find_norm();
};

/// Strictly convex least squares under linear constraints in wide numbers, by the dual active set method of Goldfarb &
/// Idnani (Mathematical Programming 27 (1983) 1-33): small, dense, and plain. Work is counted, and ends when the budget
/// is used up.
class Nearest {
public:
  enum class Outcome { optimal, infeasible, stalled, too_much_work };

  /// Begins an objective: the sum of (weights[c] y_c)^2, every weight above 0.
  void begin(std::span<const Wide> weights);

  /// Right after that: the sum of (weights[c] (y_c - place_c))^2 instead.
  void aim_at(std::span<const Wide> place);

  /// Adds the square of row y - rest.
  void add_wish(std::span<const Wide> row, Wide rest);

  /// Least y under rows y >= bound, the first `equalities` of them with equality. `magnitude` is the size of the
  /// greatest numbers at hand: what is missed by rounding of it is met. `budget` is lessened by the work done, counted
  /// in multiplications.
  Outcome solve(const WideRows &rows, int equalities, Wide magnitude, long &budget);

  std::span<const Wide> point() const { return y_; }

  /// Whether some row was so nearly dependent on others that it was taken for dependent, but not the same to a double's
  /// rounding: what it says beside them is lost.
  bool ambiguous() const { return ambiguous_; }

  /// Multipliers of all rows; where the outcome is infeasible, those of a contradiction.
  std::span<const Wide> multipliers() const { return multipliers_; }

private:
  std::span<Wide> normal(int position) { return std::span(normals_).subspan(position * width(), width()); }
  std::span<Wide> direction(int position) { return std::span(directions_).subspan(position * width(), width()); }
  Wide &triangle(int row, int column) { return triangle_[static_cast<std::size_t>(column) * size_ + row]; }
  std::size_t width() const { return static_cast<std::size_t>(size_); }
  int active() const { return static_cast<int>(active_.size()); }

  void solve_transposed(std::span<Wide> v) const;
  void solve_factor(std::span<Wide> v) const;
  Wide missing(int row) const;
  Wide numbers(int row) const;
  void orthogonalise(std::span<Wide> vector, int count);
  void project(int row);
  bool depends_on_active(int row);
  bool agrees(int row, Wide missed) const;
  Outcome add_equality(int row);
  Outcome add(int row);
  int blocking(Wide &step) const;
  void step_by(Wide step, bool moves);
  void append(int row, Wide multiplier);
  void drop(int position);
  int most_violated() const;
  void fill_multipliers();
  void fill_contradiction(int entering, Wide sign);

  const WideRows *rows_ = nullptr;
  int size_ = 0;
  int equalities_ = 0;
  Wide magnitude_ = 0;
  long work_ = 0;
  bool ambiguous_ = false;
  std::vector<Wide> factor_; ///< upper triangle, row by row
  std::vector<Wide> right_;
  std::vector<Wide> y_;
  std::vector<int> active_; ///< row at each position
  std::vector<Wide> dual_;
  std::vector<char> passed_over_; ///< of each row: active, or implied by those that are
  std::vector<Wide> normals_, directions_, triangle_;
  std::vector<Wide> left_, along_, combination_, step_, wish_;
  Wide left_square_ = 0;
  std::vector<Wide> multipliers_;
};

} // namespace gatherwright::optimum
