// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/echelon.hpp"

#include "solver/optimum/tolerances.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright::optimum {

void Echelon::begin(int rows, int columns) {
  rows_ = rows;
  columns_ = columns;
  matrix_.assign(static_cast<std::size_t>(rows) * columns, 0.0);
  terms_.assign(rows, 0);
  steps_.clear();
  updates_.clear();
}

void Echelon::substitute() {
  place_of_.assign(rows_, -1);
  next_.clear();
  for (const int few : {1, 2})
    for (int i = 0; i < rows_; ++i)
      if (terms_[i] == few) next_.push_back(i);
  Step step;
  for (std::size_t n = 0; n < next_.size(); ++n) {
    const int row = next_[n];
    if (place_of_[row] >= 0 || !find_step(row, step)) continue;
    place_of_[row] = static_cast<int>(steps_.size());
    for (int i = 0; i < rows_; ++i)
      if (place_of_[i] < 0 && entry(i, step.pivot) != 0) put_into(row, step, i);
    step.end_update = static_cast<int>(updates_.size());
    steps_.push_back(step);
  }
  lay_out_rest();
}

/// What a row of one or two terms gives; false: no term is clear.
bool Echelon::find_step(int row, Step &step) {
  if (terms_[row] == 0) return false;
  step = {};
  for (int c = 0, terms = terms_[row]; terms > 0; ++c) {
    const double value = entry(row, c);
    if (value == 0) continue;
    --terms;
    if (std::abs(value) > std::abs(step.value)) {
      step.beside = step.value != 0 ? step.pivot : -1;
      step.times = step.value;
      step.pivot = c;
      step.value = value;
    } else {
      step.beside = c;
      step.times = value;
    }
  }
  return std::abs(step.value) >= tolerance::clear_pivot;
}

/// Puts what a row gives into another.
void Echelon::put_into(int row, const Step &step, int into) {
  double &there = entry(into, step.pivot);
  const double factor = there / step.value;
  there = 0;
  --terms_[into];
  updates_.push_back({into, factor});
  if (step.beside >= 0) {
    double &beside = entry(into, step.beside);
    const double by = factor * entry(row, step.beside);
    const double numbers = std::abs(beside) + std::abs(by);
    if (beside != 0) --terms_[into];
    beside -= by;
    if (std::abs(beside) <= tolerance::cancelled_coefficient * numbers) beside = 0;
    if (beside != 0) ++terms_[into];
  }
  if (terms_[into] <= 2) next_.push_back(into);
}

/// Gives every other row its place, those of no terms the last ones, and what is left to be factored its own.
void Echelon::lay_out_rest() {
  const int taken = static_cast<int>(steps_.size());
  int place = taken;
  for (const bool empty : {false, true}) {
    for (int i = 0; i < rows_; ++i)
      if (place_of_[i] < 0 && (terms_[i] == 0) == empty) place_of_[i] = place++;
    if (!empty) qr_.rows = place - taken;
  }
  for (Update &update : updates_)
    update.row = place_of_[update.row];
  column_place_.assign(columns_, -1);
  for (int k = 0; k < taken; ++k)
    column_place_[steps_[k].pivot] = k;
  left_.clear();
  for (int c = 0; c < columns_; ++c)
    if (column_place_[c] < 0) left_.push_back(c);
  qr_.columns = static_cast<int>(left_.size());
  qr_.matrix.assign(static_cast<std::size_t>(qr_.rows) * qr_.columns, 0.0);
  for (int i = 0; i < rows_; ++i) {
    const int at = place_of_[i] - taken;
    if (at < 0 || at >= qr_.rows) continue;
    for (int c = 0; c < qr_.columns; ++c)
      qr_.column(c)[at] = entry(i, left_[c]);
  }
}

std::int64_t Echelon::work_left() const {
  return 3 * static_cast<std::int64_t>(qr_.rows) * qr_.columns * std::min(qr_.rows, qr_.columns);
}

void Echelon::factor(double least) {
  qr_.factor(least);
  pivots_.clear();
  for (const Step &step : steps_)
    pivots_.push_back(step.pivot);
  for (const int pivot : qr_.pivots) {
    column_place_[left_[pivot]] = static_cast<int>(pivots_.size());
    pivots_.push_back(left_[pivot]);
  }
  for (Step &step : steps_)
    if (step.beside >= 0) step.beside = column_place_[step.beside];
}

bool Echelon::is_nearly_parallel() const {
  for (int k = 0; k < qr_.rank; ++k)
    if (tolerance::is_nearly_parallel(std::abs(qr_.column(k)[k]), 1)) return true;
  return false;
}

void Echelon::apply(double *places) const {
  const Update *update = updates_.data();
  const std::size_t taken = steps_.size();
  for (std::size_t k = 0; k < taken; ++k)
    for (const Update *end = updates_.data() + steps_[k].end_update; update != end; ++update)
      places[update->row] -= update->factor * places[k];
  for (int k = 0; k < qr_.rank; ++k)
    qr_.reflect(k, places + taken);
}

void Echelon::apply_transposed(double *places) const {
  const std::size_t taken = steps_.size();
  for (int k = qr_.rank - 1; k >= 0; --k)
    qr_.reflect(k, places + taken);
  const Update *update = updates_.data() + updates_.size();
  for (std::size_t k = taken; k-- > 0;)
    for (const Update *begin = updates_.data() + (k > 0 ? steps_[k - 1].end_update : 0); update != begin;) {
      --update;
      places[k] -= update->factor * places[update->row];
    }
}

void Echelon::solve(double *vector) const {
  const std::size_t taken = steps_.size();
  qr_.solve(vector + taken);
  for (std::size_t k = taken; k-- > 0;) {
    const Step &step = steps_[k];
    if (step.beside >= 0 && step.beside < rank()) vector[k] -= step.times * vector[step.beside];
    vector[k] /= step.value;
  }
}

void Echelon::solve_transposed(double *vector) const {
  const std::size_t taken = steps_.size();
  for (std::size_t k = 0; k < taken; ++k) {
    const Step &step = steps_[k];
    vector[k] /= step.value;
    if (step.beside >= 0 && step.beside < rank()) vector[step.beside] -= step.times * vector[k];
  }
  qr_.solve_transposed(vector + taken);
}

void Echelon::free_columns(double *into) const {
  const int rank = this->rank();
  const int taken = static_cast<int>(steps_.size());
  const auto column = [&](int c) { return into + static_cast<std::size_t>(c) * rank; };
  for (int c = 0; c < columns_ - rank; ++c) {
    std::fill_n(column(c), taken, 0.0);
    std::copy_n(qr_.column(qr_.rank + c), qr_.rank, column(c) + taken);
  }
  for (int k = 0; k < taken; ++k)
    if (steps_[k].beside >= rank) column(steps_[k].beside - rank)[k] = steps_[k].times;
}

std::int64_t Echelon::work() const {
  return rows_ + static_cast<std::int64_t>(updates_.size()) + static_cast<std::int64_t>(qr_.rows) * (qr_.rank + 1);
}

} // namespace gatherwright::optimum
