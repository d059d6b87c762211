// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/nearest.hpp"

#include "solver/optimum/dense.hpp"
#include "solver/optimum/tolerances.hpp"

#include <algorithm>

namespace gatherwright::optimum {

void WideRows::find_norm() {
  const std::span<const Wide> last = row(count() - 1);
  norm.back() = square_root(dot(last, last));
}

void Nearest::begin(std::span<const Wide> weights) {
  size_ = static_cast<int>(weights.size());
  factor_.assign(width() * width(), Wide(0));
  for (std::size_t c = 0; c < width(); ++c)
    factor_[c * width() + c] = weights[c];
  right_.assign(width(), Wide(0));
}

void Nearest::aim_at(std::span<const Wide> place) {
  for (std::size_t c = 0; c < width(); ++c)
    right_[c] = factor_[c * width() + c] * place[c];
}

/// Rotates the row into the triangle, column by column.
void Nearest::add_wish(std::span<const Wide> row, Wide rest) {
  wish_.assign(row.begin(), row.end());
  for (std::size_t c = 0; c < width(); ++c) {
    if (wish_[c] == 0) continue;
    const std::span<Wide> of = std::span(factor_).subspan(c * width(), width());
    const Wide length = square_root(of[c] * of[c] + wish_[c] * wish_[c]);
    const Rotation<Wide> turn{of[c] / length, wish_[c] / length};
    rotate(turn, of.data() + c, wish_.data() + c, width() - c);
    rotate(turn, &right_[c], &rest, 1);
  }
}

void Nearest::solve_transposed(std::span<Wide> v) const {
  for (std::size_t c = 0; c < width(); ++c) {
    if (v[c] == 0) continue;
    const Wide *of = &factor_[c * width()];
    v[c] /= of[c];
    add_times(v.data() + c + 1, of + c + 1, -v[c], width() - c - 1);
  }
}

void Nearest::solve_factor(std::span<Wide> v) const {
  for (std::size_t c = width(); c-- > 0;) {
    const Wide *of = &factor_[c * width()];
    for (std::size_t k = c + 1; k < width(); ++k)
      v[c] -= of[k] * v[k];
    v[c] /= of[c];
  }
}

/// The size of the numbers that a row's value is made from.
Wide Nearest::numbers(int row) const {
  Wide sum = rows_->size[row];
  const std::span<const Wide> of = rows_->row(row);
  for (std::size_t c = 0; c < of.size(); ++c)
    sum += absolute(of[c] * y_[c]);
  return sum;
}

Wide Nearest::missing(int row) const {
  return rows_->bound[row] - dot(rows_->row(row), y_);
}

/// Takes the first `count` directions out of a vector, twice (Daniel, Gragg, Kaufman & Stewart, Math. Comp. 30 (1976)
/// 772-795); their shares are left in along_.
void Nearest::orthogonalise(std::span<Wide> vector, int count) {
  along_.assign(count, Wide(0));
  for (int pass = 0; pass < 2; ++pass)
    for (int k = 0; k < count; ++k) {
      const Wide share = dot(direction(k), vector);
      along_[k] += share;
      add_times(vector, direction(k), -share);
    }
}

/// Splits a row's normal into its part along the active ones and what is left of it.
void Nearest::project(int row) {
  const std::span<const Wide> of = rows_->row(row);
  step_.assign(of.begin(), of.end());
  solve_transposed(step_);
  left_ = step_;
  orthogonalise(left_, active());
  left_square_ = dot(left_, left_);
  if (left_square_ <= tolerance::wide::nothing_left * dot(step_, step_)) left_square_ = 0;
  combination_ = along_;
  for (int k = active(); k-- > 0;) {
    for (int j = k + 1; j < active(); ++j)
      combination_[k] -= triangle(k, j) * combination_[j];
    combination_[k] /= triangle(k, k);
  }
  work_ += static_cast<long>(size_) * (size_ + 5L * active());
}

/// Judged by the row itself: among the normals the weights make some directions far longer than others.
bool Nearest::depends_on_active(int row) {
  if (left_square_ == 0 || active() == size_) return true;
  const std::span<const Wide> of = rows_->row(row);
  std::vector<Wide> rest(of.begin(), of.end());
  for (int k = 0; k < active(); ++k)
    add_times(rest, rows_->row(active_[k]), -combination_[k]);
  const Wide share = square_root(dot(rest, rest));
  if (share > tolerance::dependent_share * rows_->norm[row]) return false;
  ambiguous_ = ambiguous_ || share > tolerance::wide::rounded_share * rows_->norm[row];
  return true;
}

/// Whether a row that depends on the active ones agrees with them; so does what is no more than rounding.
bool Nearest::agrees(int row, Wide missed) const {
  return missed <=
         tolerance::agreement * numbers(row) + tolerance::wide::nothing_of_all * rows_->norm[row] * magnitude_;
}

void Nearest::step_by(Wide step, bool moves) {
  for (int k = 0; k < active(); ++k)
    dual_[k] -= step * combination_[k];
  if (!moves) return;
  step_ = left_;
  solve_factor(step_);
  add_times(y_, step_, step);
  work_ += static_cast<long>(size_) * size_;
}

void Nearest::append(int row, Wide multiplier) {
  const int q = active();
  const Wide length = square_root(left_square_);
  for (int k = 0; k < q; ++k)
    triangle(k, q) = along_[k];
  triangle(q, q) = length;
  const std::span<const Wide> of = rows_->row(row);
  std::copy(of.begin(), of.end(), normal(q).begin());
  solve_transposed(normal(q));
  for (std::size_t c = 0; c < width(); ++c)
    direction(q)[c] = left_[c] / length;
  active_.push_back(row);
  dual_.push_back(multiplier);
  passed_over_[row] = 1;
}

/// What comes after the row that leaves is orthogonalised anew.
void Nearest::drop(int position) {
  passed_over_[active_[position]] = 0;
  for (int i = equalities_; i < rows_->count(); ++i)
    passed_over_[i] = passed_over_[i] != 0 && std::find(active_.begin(), active_.end(), i) != active_.end();
  active_.erase(active_.begin() + position);
  dual_.erase(dual_.begin() + position);
  for (int k = position; k < active(); ++k) {
    std::copy(normal(k + 1).begin(), normal(k + 1).end(), normal(k).begin());
    left_.assign(normal(k).begin(), normal(k).end());
    orthogonalise(left_, k);
    const Wide length = square_root(dot(left_, left_));
    for (int j = 0; j < k; ++j)
      triangle(j, k) = along_[j];
    triangle(k, k) = length;
    for (std::size_t c = 0; c < width(); ++c)
      direction(k)[c] = left_[c] / length;
    work_ += 4L * size_ * (k + 1);
  }
}

Nearest::Outcome Nearest::add_equality(int row) {
  project(row);
  const Wide missed = missing(row);
  if (depends_on_active(row)) {
    passed_over_[row] = 1;
    if (agrees(row, absolute(missed))) return Outcome::optimal;
    fill_contradiction(row, missed > 0 ? 1 : -1);
    return Outcome::infeasible;
  }
  const Wide step = missed / left_square_;
  step_by(step, true);
  append(row, step);
  return Outcome::optimal;
}

/// Which active inequality's multiplier reaches 0 first as the entering one's grows, within `step` (0 or above: below
/// 0, without bound); -1: none does.
int Nearest::blocking(Wide &step) const {
  Wide greatest = 0;
  for (int k = 0; k < active(); ++k)
    greatest = std::max(greatest, absolute(combination_[k]) * rows_->norm[active_[k]]);
  int leaving = -1;
  for (int k = 0; k < active(); ++k) {
    if (active_[k] < equalities_ || combination_[k] * rows_->norm[active_[k]] <= tolerance::wide::no_share * greatest)
      continue;
    const Wide reach = std::max(dual_[k], Wide(0)) / combination_[k];
    if (step >= 0 && reach >= step) continue;
    step = reach;
    leaving = k;
  }
  return leaving;
}

Nearest::Outcome Nearest::add(int row) {
  Wide entering = 0;
  for (;;) {
    project(row);
    const Wide missed = std::max(missing(row), Wide(0));
    const bool depends = depends_on_active(row);
    if (depends && agrees(row, missed)) {
      passed_over_[row] = 1;
      for (int k = 0; k < active(); ++k)
        dual_[k] += entering * combination_[k];
      return Outcome::optimal;
    }
    Wide step = depends ? Wide(-1) : missed / left_square_;
    const int leaving = blocking(step);
    if (step < 0) {
      fill_contradiction(row, 1);
      return Outcome::infeasible;
    }
    entering += step;
    step_by(step, !depends);
    if (leaving < 0) {
      append(row, entering);
      return Outcome::optimal;
    }
    drop(leaving);
  }
}

int Nearest::most_violated() const {
  int worst = -1;
  Wide most = 0;
  for (int i = equalities_; i < rows_->count(); ++i) {
    if (passed_over_[i] != 0) continue;
    const Wide missed = missing(i);
    if (missed <= tolerance::wide::nothing_of_all * rows_->norm[i] * magnitude_ || missed <= most * rows_->norm[i] ||
        missed <= tolerance::wide::nothing_missed * numbers(i))
      continue;
    most = rows_->norm[i] > 0 ? missed / rows_->norm[i] : missed;
    worst = i;
  }
  return worst;
}

Nearest::Outcome Nearest::solve(const WideRows &rows, int equalities, Wide magnitude, long &budget) {
  rows_ = &rows;
  equalities_ = equalities;
  magnitude_ = magnitude;
  work_ = 0;
  ambiguous_ = false;
  active_.clear();
  dual_.clear();
  passed_over_.assign(rows.count(), 0);
  normals_.resize(width() * width());
  directions_.resize(width() * width());
  triangle_.resize(width() * width());
  y_ = right_;
  solve_factor(y_);
  Outcome outcome = Outcome::optimal;
  for (int i = 0; i < equalities && outcome == Outcome::optimal; ++i)
    outcome = add_equality(i);
  int patience = 8 * (rows.count() + size_) + 50;
  while (outcome == Outcome::optimal) {
    if (work_ > budget) outcome = Outcome::too_much_work;
    const int next = most_violated();
    work_ += static_cast<long>(size_) * rows.count();
    if (next < 0 || outcome != Outcome::optimal) break;
    outcome = --patience < 0 ? Outcome::stalled : add(next);
  }
  budget -= std::min(work_, budget);
  if (outcome == Outcome::optimal) fill_multipliers();
  return outcome;
}

void Nearest::fill_multipliers() {
  multipliers_.assign(rows_->count(), Wide(0));
  for (int k = 0; k < active(); ++k)
    multipliers_[active_[k]] = active_[k] < equalities_ ? dual_[k] : std::max(dual_[k], Wide(0));
}

/// The entering row is a combination of the active ones: it less the combination is a row of no terms whose bound is
/// above 0.
void Nearest::fill_contradiction(int entering, Wide sign) {
  multipliers_.assign(rows_->count(), Wide(0));
  for (int k = 0; k < active(); ++k) {
    const Wide multiplier = -sign * combination_[k];
    multipliers_[active_[k]] = active_[k] < equalities_ ? multiplier : std::max(multiplier, Wide(0));
  }
  multipliers_[entering] = sign;
}

} // namespace gatherwright::optimum
