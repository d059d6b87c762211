// SPDX-License-Identifier: GPL-3.0-or-later
#include "optimum/arrow_factor.hpp"

#include <Eigen/Core>
#include <algorithm>
#include <cmath>

namespace gatherwright::optimum {

namespace {

using Vector = Eigen::Map<Eigen::ArrayXd>;
using ConstVector = Eigen::Map<const Eigen::ArrayXd>;

struct Rotation {
  double cosine = 1;
  double sine = 0;
};

/// The rotation that turns (a, b) into (r, 0); `a` becomes r.
Rotation rotation_onto(double &a, double b) {
  const double r = std::hypot(a, b);
  const Rotation turn{a / r, b / r};
  a = r;
  return turn;
}

void rotate(Rotation turn, double *upper, double *lower, int count) {
  for (int i = 0; i < count; ++i) {
    const double u = upper[i];
    const double l = lower[i];
    upper[i] = turn.cosine * u + turn.sine * l;
    lower[i] = turn.cosine * l - turn.sine * u;
  }
}

} // namespace

void ArrowFactor::reset(const Layout &layout) {
  layout_ = &layout;
  block_start_.resize(layout.blocks() + 1);
  block_start_[0] = 0;
  int widest = 0;
  for (int j = 0; j < layout.blocks(); ++j) {
    block_start_[j + 1] = block_start_[j] + layout.locals(j) * width(j);
    widest = std::max(widest, width(j));
  }
  blocks_.assign(block_start_.back(), 0.0);
  shared_.assign(static_cast<std::size_t>(layout.shared) * layout.shared, 0.0);
  right_side_.assign(layout.size(), 0.0);
  row_.assign(widest, 0.0);
  shared_scratch_.assign(layout.shared, 0.0);
  shared_diagonal_ = true;
}

void ArrowFactor::insert(const RowView &row, double bound) {
  if (row.block < 0) {
    int first = layout_->shared;
    for (std::size_t k = 0; k < row.columns.size(); ++k) {
      shared_scratch_[row.columns[k]] += row.values[k];
      first = std::min(first, row.columns[k]);
    }
    insert_shared(first, bound);
    return;
  }
  const int locals = layout_->locals(row.block);
  const int columns = width(row.block);
  std::copy(row.values.begin(), row.values.end(), row_.begin());
  for (int c = 0; c < locals; ++c) {
    if (row_[c] == 0) continue;
    double *pivot = block_row(row.block, c);
    double &pivot_bound = right_side_[layout_->local_start[row.block] + c];
    const Rotation turn = rotation_onto(pivot[c], row_[c]);
    rotate(turn, pivot + c + 1, row_.data() + c + 1, columns - c - 1);
    rotate(turn, &pivot_bound, &bound, 1);
  }
  int first = layout_->shared;
  for (int k = locals; k < columns; ++k) {
    const int c = row.columns[k];
    shared_scratch_[c] = row_[k];
    if (row_[k] != 0) first = std::min(first, c);
  }
  insert_shared(first, bound);
}

void ArrowFactor::insert_shared(int first, double bound) {
  const int shared = layout_->shared;
  double *row = shared_scratch_.data();
  for (int c = first; c < shared; ++c) {
    if (row[c] == 0) continue;
    double *pivot = shared_row(c);
    const Rotation turn = rotation_onto(pivot[c], row[c]);
    row[c] = 0;
    if (shared_diagonal_) shared_diagonal_ = std::all_of(row + c + 1, row + shared, [](double a) { return a == 0; });
    if (!shared_diagonal_) rotate(turn, pivot + c + 1, row + c + 1, shared - c - 1);
    rotate(turn, &right_side_[c], &bound, 1);
    if (shared_diagonal_) break;
  }
}

void ArrowFactor::add_proximal(double weight, std::span<const double> centre) {
  for (int j = 0; j < layout_->blocks(); ++j) {
    const auto columns = layout_->block_columns(j);
    const int locals = layout_->locals(j);
    std::vector<double> unit(columns.size(), 0.0);
    for (int c = 0; c < locals; ++c) {
      unit[c] = weight;
      insert({columns, unit, j}, weight * centre[columns[c]]);
      unit[c] = 0;
    }
  }
  for (int c = 0; c < layout_->shared; ++c) {
    shared_scratch_[c] = weight;
    insert_shared(c, weight * centre[c]);
  }
}

void ArrowFactor::move_centre(double weight, std::span<const double> step) {
  const double square = weight * weight;
  Vector scratch(shared_scratch_.data(), layout_->shared);
  for (int c = 0; c < layout_->shared; ++c)
    scratch[c] = square * step[c];
  for (int j = 0; j < layout_->blocks(); ++j) {
    const int locals = layout_->locals(j);
    const auto columns = layout_->block_columns(j);
    for (int c = 0; c < locals; ++c)
      row_[c] = square * step[columns[c]];
    for (int c = 0; c < locals; ++c) {
      const double *pivot = block_row(j, c);
      const double w = row_[c] / pivot[c];
      right_side_[columns[c]] += w;
      for (int k = c + 1; k < locals; ++k)
        row_[k] -= pivot[k] * w;
      for (std::size_t k = locals; k < columns.size(); ++k)
        scratch[columns[k]] -= pivot[k] * w;
    }
  }
  for (int c = 0; c < layout_->shared; ++c) {
    const double *pivot = shared_row(c);
    const double w = scratch[c] / pivot[c];
    right_side_[c] += w;
    for (int k = c + 1; k < layout_->shared; ++k)
      scratch[k] -= pivot[k] * w;
  }
  scratch.setZero();
}

double ArrowFactor::greatest_diagonal() const {
  double greatest = 0;
  for (int j = 0; j < layout_->blocks(); ++j)
    for (int c = 0; c < layout_->locals(j); ++c)
      greatest = std::max(greatest, block_row(j, c)[c]);
  for (int c = 0; c < layout_->shared; ++c)
    greatest = std::max(greatest, shared_row(c)[c]);
  return greatest;
}

double ArrowFactor::least_diagonal() const {
  double least = HUGE_VAL;
  for (int j = 0; j < layout_->blocks(); ++j)
    for (int c = 0; c < layout_->locals(j); ++c)
      least = std::min(least, block_row(j, c)[c]);
  for (int c = 0; c < layout_->shared; ++c)
    least = std::min(least, shared_row(c)[c]);
  return least;
}

void ArrowFactor::solve_transposed(const RowView &row, std::span<double> w, std::vector<int> &support) const {
  std::fill(w.begin(), w.end(), 0.0);
  support.clear();
  for (std::size_t k = 0; k < row.columns.size(); ++k)
    w[row.columns[k]] = row.values[k];
  if (row.block >= 0) {
    const auto columns = layout_->block_columns(row.block);
    const int locals = layout_->locals(row.block);
    for (int c = 0; c < locals; ++c) {
      const double *pivot = block_row(row.block, c);
      const double value = w[columns[c]] /= pivot[c];
      support.push_back(columns[c]);
      if (value == 0) continue;
      for (std::size_t k = c + 1; k < columns.size(); ++k)
        w[columns[k]] -= pivot[k] * value;
    }
  }
  int first = layout_->shared;
  for (const int column : row.columns)
    if (column < layout_->shared && w[column] != 0) first = std::min(first, column);
  if (shared_diagonal_) {
    for (const int column : row.columns) {
      if (column >= layout_->shared || w[column] == 0) continue;
      w[column] /= shared_row(column)[column];
      support.push_back(column);
    }
    return;
  }
  double *shared = w.data();
  for (int c = first; c < layout_->shared; ++c) {
    const double *pivot = shared_row(c);
    const double value = shared[c] /= pivot[c];
    support.push_back(c);
    if (value == 0) continue;
    const int rest = layout_->shared - c - 1;
    Vector(shared + c + 1, rest) -= value * ConstVector(pivot + c + 1, rest);
  }
}

void ArrowFactor::solve(std::span<const double> v, std::span<double> y) const {
  for (int c = layout_->shared - 1; c >= 0; --c) {
    const double *pivot = shared_row(c);
    double rest = v[c];
    const int after = layout_->shared - c - 1;
    if (!shared_diagonal_ && after > 0)
      rest -= (ConstVector(pivot + c + 1, after) * ConstVector(y.data() + c + 1, after)).sum();
    y[c] = rest / pivot[c];
  }
  for (int j = 0; j < layout_->blocks(); ++j) {
    const auto columns = layout_->block_columns(j);
    for (int c = layout_->locals(j) - 1; c >= 0; --c) {
      const double *pivot = block_row(j, c);
      double rest = v[columns[c]];
      for (std::size_t k = c + 1; k < columns.size(); ++k)
        rest -= pivot[k] * y[columns[k]];
      y[columns[c]] = rest / pivot[c];
    }
  }
}

} // namespace gatherwright::optimum
