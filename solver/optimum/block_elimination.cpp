// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/block_elimination.hpp"

#include "solver/optimum/tolerances.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright::optimum {

void BlockElimination::eliminate(const ReducedRows &reduced, int first, int end, const BlockMap &map,
                                 std::span<const int> columns, std::vector<double> &border) {
  const int rows = end - first;
  const int touched = static_cast<int>(map.touched.size());
  first_unknown_ = map.begin;
  unknowns_ = map.size;
  first_row_ = first;
  qr_.rows = rows;
  qr_.columns = map.locals;
  qr_.matrix.assign(static_cast<std::size_t>(rows) * map.locals, 0.0);
  shrink_.resize(rows);
  border.assign(static_cast<std::size_t>(rows) * touched, 0.0);
  for (int i = 0; i < rows; ++i) {
    const double shrink = 1 / reduced[first + i].norm;
    shrink_[i] = shrink;
    int c = 0;
    for (const Term &term : reduced.view(first + i).terms) {
      while (columns[c] != term.column)
        ++c;
      double *column = c < map.locals ? qr_.column(c) : border.data() + static_cast<std::size_t>(c - map.locals) * rows;
      column[i] = shrink * term.value;
    }
  }
  entry_.resize(static_cast<std::size_t>(map.size) * map.locals);
  for (int i = 0; i < map.size; ++i)
    std::copy_n(map.row(i), map.locals, entry_.data() + static_cast<std::size_t>(i) * map.locals);
  qr_.factor(tolerance::dependent_share);
  for (int k = 0; k < qr_.rank; ++k)
    for (int c = 0; c < touched; ++c)
      qr_.reflect(k, border.data() + static_cast<std::size_t>(c) * rows);
}

bool BlockElimination::is_nearly_parallel() const {
  for (int k = 0; k < qr_.rank; ++k)
    if (tolerance::is_nearly_parallel(std::abs(qr_.column(k)[k]), 1)) return true;
  return false;
}

void BlockElimination::leave(std::span<const int> touched, std::span<const double> border, LeftRows &left) {
  first_left_ = left.size();
  for (int i = qr_.rank; i < qr_.rows; ++i) {
    ReducedRows::Pen pen = left.pen(touched.size());
    for (std::size_t c = 0; c < touched.size(); ++c) {
      const double value = border[c * qr_.rows + i];
      // What is left of a row that depends on others is rounding: it must not be taken for a condition on the shared
      // unknowns.
      if (std::abs(value) > tolerance::dependent_share) pen.put(touched[c], value);
    }
    left.take(pen, 1);
  }
}

void BlockElimination::meet_bounds(std::span<const double> rests, Freedom &freedom, LeftRows &left) {
  right_.resize(qr_.rows);
  for (int i = 0; i < qr_.rows; ++i)
    right_[i] = shrink_[i] * rests[first_row_ + i];
  for (int k = 0; k < qr_.rank; ++k)
    qr_.reflect(k, right_.data());
  for (int i = qr_.rank; i < qr_.rows; ++i)
    left.set_rest(first_left_ + i - qr_.rank, right_[i]);
  qr_.solve(right_.data());
  for (int i = 0; i < unknowns_; ++i)
    for (int k = 0; k < qr_.rank; ++k)
      if (const double basic = entry(i)[qr_.pivots[k]]; basic != 0)
        freedom.move_unknown(first_unknown_ + i, basic * right_[k]);
}

std::span<const double> BlockElimination::multipliers(std::span<const double> of_left,
                                                      std::span<const double> gradient) {
  right_.assign(qr_.rows, 0.0);
  for (int k = 0; k < qr_.rank; ++k)
    for (int i = 0; i < unknowns_; ++i)
      right_[k] += entry(i)[qr_.pivots[k]] * gradient[first_unknown_ + i];
  qr_.solve_transposed(right_.data());
  for (int i = qr_.rank; i < qr_.rows; ++i)
    right_[i] = of_left[first_left_ + i - qr_.rank];
  for (int k = qr_.rank - 1; k >= 0; --k)
    qr_.reflect(k, right_.data());
  for (int i = 0; i < qr_.rows; ++i)
    right_[i] *= shrink_[i];
  return right_;
}

} // namespace gatherwright::optimum
