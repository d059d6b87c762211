// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/echelon.hpp"

#include "solver/optimum/tolerances.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright::optimum {

void Echelon::substitute(Room &room) {
  OpenRows &rows = room.rows;
  steps_.clear();
  steps_.reserve(rows.rows());
  updates_.clear();
  updates_.reserve(2 * rows.rows());
  place_of_.assign(rows.rows(), -1);
  room.next.clear();
  room.next.reserve(4 * rows.rows());
  for (const int few : {1, 2})
    for (int i = 0; i < rows.rows(); ++i)
      if (rows.terms(i) == few) room.next.push_back(i);
  Step step;
  for (std::size_t n = 0; n < room.next.size(); ++n)
    if (const int row = room.next[n]; place_of_[row] < 0 && find_step(rows, row, step))
      take(row, step, rows, room.next);
  lay_out_rest(room);
}

/// What a row of one or two terms gives; false: no term is clear.
bool Echelon::find_step(const OpenRows &rows, int row, Step &step) {
  step = {};
  for (int c = 0, terms = rows.terms(row); terms > 0; ++c) {
    const double value = rows.at(row, c);
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

/// Puts what a row gives into all others that are not taken yet; those that then have few terms are next.
void Echelon::take(int row, Step step, OpenRows &rows, std::vector<int> &next) {
  place_of_[row] = static_cast<int>(steps_.size());
  rows.take_from(step.pivot);
  if (step.beside >= 0) rows.take_from(step.beside);
  for (int i = 0; rows.in_column(step.pivot) > 0; ++i) {
    if (place_of_[i] >= 0 || rows.at(i, step.pivot) == 0) continue;
    put_into(i, step, rows);
    if (rows.terms(i) <= 2) next.push_back(i);
  }
  step.end_update = static_cast<int>(updates_.size());
  steps_.push_back(step);
}

void Echelon::put_into(int row, const Step &step, OpenRows &rows) {
  const double factor = rows.at(row, step.pivot) / step.value;
  updates_.push_back({row, factor});
  rows.set(row, step.pivot, 0);
  if (step.beside < 0) return;
  const double beside = rows.at(row, step.beside);
  const double by = factor * step.times;
  const double numbers = std::abs(beside) + std::abs(by);
  const double left = beside - by;
  rows.set(row, step.beside, std::abs(left) > tolerance::cancelled_coefficient * numbers ? left : 0);
}

/// Gives every other row its place, those of no terms the last ones, and what is left to be factored its own.
void Echelon::lay_out_rest(Room &room) {
  const OpenRows &rows = room.rows;
  const int taken = static_cast<int>(steps_.size());
  int place = taken;
  for (const bool empty : {false, true}) {
    for (int i = 0; i < rows.rows(); ++i)
      if (place_of_[i] < 0 && (rows.terms(i) == 0) == empty) place_of_[i] = place++;
    if (!empty) qr_.rows = place - taken;
  }
  for (Update &update : updates_)
    update.row = place_of_[update.row];
  room.column_place.assign(rows.columns(), -1);
  for (int k = 0; k < taken; ++k)
    room.column_place[steps_[k].pivot] = k;
  room.left.clear();
  for (int c = 0; c < rows.columns(); ++c)
    if (room.column_place[c] < 0) room.left.push_back(c);
  qr_.columns = static_cast<int>(room.left.size());
  qr_.matrix.assign(static_cast<std::size_t>(qr_.rows) * qr_.columns, 0.0);
  for (int i = 0; i < rows.rows(); ++i) {
    const int at = place_of_[i] - taken;
    if (at < 0 || at >= qr_.rows) continue;
    for (int c = 0; c < qr_.columns; ++c)
      qr_.column(c)[at] = rows.at(i, room.left[c]);
  }
}

std::int64_t Echelon::work_left() const {
  return 3 * static_cast<std::int64_t>(qr_.rows) * qr_.columns * std::min(qr_.rows, qr_.columns);
}

void Echelon::factor(double least, Room &room) {
  qr_.factor(least);
  pivots_.clear();
  pivots_.reserve(room.column_place.size());
  for (const Step &step : steps_)
    pivots_.push_back(step.pivot);
  for (const int pivot : qr_.pivots) {
    room.column_place[room.left[pivot]] = static_cast<int>(pivots_.size());
    pivots_.push_back(room.left[pivot]);
  }
  for (Step &step : steps_)
    if (step.beside >= 0) step.beside = room.column_place[step.beside];
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
  for (int c = 0; c < qr_.columns - qr_.rank; ++c) {
    std::fill_n(column(c), taken, 0.0);
    std::copy_n(qr_.column(qr_.rank + c), qr_.rank, column(c) + taken);
  }
  for (int k = 0; k < taken; ++k)
    if (steps_[k].beside >= rank) column(steps_[k].beside - rank)[k] = steps_[k].times;
}

std::int64_t Echelon::work() const {
  return rows() + static_cast<std::int64_t>(updates_.size()) + static_cast<std::int64_t>(qr_.rows) * (qr_.rank + 1);
}

} // namespace gatherwright::optimum
