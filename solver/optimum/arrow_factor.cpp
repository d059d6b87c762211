// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/arrow_factor.hpp"

#include "solver/optimum/dense.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright::optimum {

namespace {

/// w = scale w, and y = scale times that, number by number. Returns the square of the new w, summed one after another.
double scale_twice(const double *__restrict scale, double *__restrict w, double *__restrict y, std::size_t count) {
  double square = 0;
  std::size_t c = 0;
  for (; c + 2 <= count; c += 2) {
    const double w0 = w[c] * scale[c];
    const double w1 = w[c + 1] * scale[c + 1];
    w[c] = w0;
    w[c + 1] = w1;
    y[c] = w0 * scale[c];
    y[c + 1] = w1 * scale[c + 1];
    square += w0 * w0;
    square += w1 * w1;
  }
  if (c < count) {
    w[c] *= scale[c];
    y[c] = w[c] * scale[c];
    square += w[c] * w[c];
  }
  return square;
}

} // namespace

void ArrowFactor::reset(const Layout &layout, double weight) {
  layout_ = &layout;
  pivot_.assign(layout.size(), weight);
  right_side_.assign(layout.size(), 0.0);
  shared_row_.resize(layout.shared);
  diagonal_ = true;
  shared_diagonal_ = true;
  too_large_ = false;
  entries_ = layout.size();
  count_.add(entries_);
}

void ArrowFactor::leave_diagonal() {
  diagonal_ = false;
  block_start_.resize(layout_->blocks() + 1);
  block_start_[0] = 0;
  int widest = 0;
  for (int j = 0; j < layout_->blocks(); ++j) {
    block_start_[j + 1] = block_start_[j] + layout_->locals(j) * width(j);
    widest = std::max(widest, width(j));
  }
  blocks_.assign(block_start_.back(), 0.0);
  entries_ += block_start_.back();
  count_.add(block_start_.back());
  row_.assign(widest, 0.0);
  std::fill(shared_row_.begin(), shared_row_.end(), 0.0);
}

/// False: there is no room for that.
bool ArrowFactor::leave_shared_diagonal() {
  if (layout_->shared > most_shared) {
    count_.lack(Work::Bound::shared);
    too_large_ = true;
    return false;
  }
  shared_diagonal_ = false;
  const std::int64_t size = static_cast<std::int64_t>(layout_->shared) * layout_->shared;
  shared_.assign(size, 0.0);
  entries_ += size / 2;
  count_.add(size);
  return true;
}

inline void ArrowFactor::insert_on_diagonal(int column, double value, double bound) {
  double &pivot = pivot_[column];
  double &right = right_side_[column];
  if (pivot == 0) {
    pivot = std::abs(value);
    right = value < 0 ? -bound : bound;
    return;
  }
  const Rotation<double> turn = rotation_onto(pivot, value);
  right = turn.cosine * right + turn.sine * bound;
}

void ArrowFactor::insert(const RowView &row, double bound) {
  if (row.terms.empty() || too_large_) return;
  if (row.terms.size() == 1 && (diagonal_ || (row.block < 0 && shared_diagonal_)))
    insert_on_diagonal(row.terms[0].column, row.terms[0].value, bound);
  else
    insert_off_diagonal(row, bound);
}

void ArrowFactor::insert(const ReducedRows &rows) {
  for (const ReducedRows::Row &row : rows.all())
    if (diagonal_ && row.end - row.first == 1) {
      const Term &term = rows.terms()[row.first];
      insert_on_diagonal(term.column, term.value, row.rest);
    } else {
      insert(rows.view(row), row.rest);
    }
}

void ArrowFactor::insert_off_diagonal(const RowView &row, double bound) {
  if (diagonal_) leave_diagonal();
  if (row.block < 0) {
    int first = layout_->shared;
    for (const Term &term : row.terms) {
      shared_row_[term.column] = term.value;
      first = std::min(first, term.column);
    }
    insert_shared(first, bound);
    return;
  }
  const auto columns = layout_->block_columns(row.block);
  std::fill_n(row_.begin(), columns.size(), 0.0);
  std::size_t place = 0;
  for (const Term &term : row.terms) {
    while (columns[place] != term.column)
      ++place;
    row_[place] = term.value;
  }
  insert_in_block(row.block, bound);
}

/// The row is in row_.
void ArrowFactor::insert_in_block(int block, double bound) {
  const int locals = layout_->locals(block);
  const int columns = width(block);
  const int first_local = layout_->local_start[block];
  for (int c = 0; c < locals; ++c) {
    if (row_[c] == 0) continue;
    const Rotation<double> turn = rotation_onto(pivot_[first_local + c], row_[c]);
    rotate(turn, block_row(block, c) + c + 1, row_.data() + c + 1, columns - c - 1);
    count_.add(2 * (columns - c));
    rotate(turn, &right_side_[first_local + c], &bound, 1);
  }
  const auto shared = layout_->block_columns(block);
  int first = layout_->shared;
  for (int k = locals; k < columns; ++k) {
    if (row_[k] == 0) continue;
    first = std::min(first, shared[k]);
    shared_row_[shared[k]] = row_[k];
  }
  insert_shared(first, bound);
}

/// The row is in shared_row_, which is 0 again afterwards.
void ArrowFactor::insert_shared(int first, double bound) {
  const int shared = layout_->shared;
  double *row = shared_row_.data();
  for (int c = first; c < shared; ++c) {
    if (row[c] == 0) continue;
    if (shared_diagonal_) {
      count_.add(shared - c);
      if (std::all_of(row + c + 1, row + shared, [](double a) { return a == 0; })) {
        insert_on_diagonal(c, row[c], bound);
        row[c] = 0;
        return;
      }
      if (!leave_shared_diagonal()) return;
    }
    const Rotation<double> turn = rotation_onto(pivot_[c], row[c]);
    row[c] = 0;
    rotate(turn, shared_row(c) + c + 1, row + c + 1, shared - c - 1);
    count_.add(2 * (shared - c));
    rotate(turn, &right_side_[c], &bound, 1);
  }
}

void ArrowFactor::add_proximal(double weight) {
  if (diagonal_) {
    for (int c = 0; c < size(); ++c)
      insert_on_diagonal(c, weight, 0);
    return;
  }
  for (int j = 0; j < layout_->blocks(); ++j)
    for (int c = 0; c < layout_->locals(j); ++c) {
      std::fill_n(row_.begin(), width(j), 0.0);
      row_[c] = weight;
      insert_in_block(j, 0);
    }
  for (int c = 0; c < layout_->shared; ++c) {
    shared_row_[c] = weight;
    insert_shared(c, 0);
  }
}

void ArrowFactor::finish() {
  inverse_.resize(pivot_.size());
  for (std::size_t c = 0; c < pivot_.size(); ++c)
    inverse_[c] = 1 / pivot_[c];
}

void ArrowFactor::move_centre(double weight, std::span<const double> step, std::span<double> moved) {
  const double square = weight * weight;
  for (int c = 0; c < size(); ++c)
    moved[c] = square * step[c];
  row_.resize(std::max<std::size_t>(row_.size(), size()));
  const std::span<double> by = std::span(row_).first(size());
  std::copy(moved.begin(), moved.end(), by.begin());
  solve_both(by, moved);
  for (int c = 0; c < size(); ++c)
    right_side_[c] += by[c];
}

void ArrowFactor::aim_at(std::span<const double> y) {
  for (int c = 0; c < layout_->shared; ++c) {
    double sum = pivot_[c] * y[c];
    if (!shared_diagonal_)
      for (int k = c + 1; k < layout_->shared; ++k)
        sum += shared_row(c)[k] * y[k];
    right_side_[c] = sum;
  }
  for (int j = 0; j < layout_->blocks(); ++j) {
    const auto columns = layout_->block_columns(j);
    for (int c = 0; c < layout_->locals(j); ++c) {
      double sum = pivot_[columns[c]] * y[columns[c]];
      if (!diagonal_)
        for (std::size_t k = c + 1; k < columns.size(); ++k)
          sum += block_row(j, c)[k] * y[columns[k]];
      right_side_[columns[c]] = sum;
    }
  }
}

double ArrowFactor::greatest_pivot() const {
  return pivot_.empty() ? 0 : *std::max_element(pivot_.begin(), pivot_.end());
}

double ArrowFactor::least_pivot() const {
  return pivot_.empty() ? 0 : *std::min_element(pivot_.begin(), pivot_.end());
}

void ArrowFactor::solve_transposed_block(int block, std::span<double> w) const {
  const auto columns = layout_->block_columns(block);
  const int locals = layout_->locals(block);
  for (int c = 0; c < locals; ++c) {
    const double value = w[columns[c]] *= inverse_[columns[c]];
    if (value == 0) continue;
    const double *off = block_row(block, c);
    for (std::size_t k = c + 1; k < columns.size(); ++k)
      w[columns[k]] -= off[k] * value;
  }
}

void ArrowFactor::solve_transposed_shared(int first, std::span<double> w) const {
  const int shared = layout_->shared;
  double *values = w.data();
  if (shared_diagonal_) {
    for (int c = first; c < shared; ++c)
      values[c] *= inverse_[c];
    return;
  }
  for (int c = first; c < shared; ++c) {
    const double value = values[c] *= inverse_[c];
    if (value == 0) continue;
    add_times(values + c + 1, shared_row(c) + c + 1, -value, shared - c - 1);
  }
}

void ArrowFactor::solve_transposed(std::span<double> w) const {
  for (int j = 0; j < layout_->blocks(); ++j)
    solve_transposed_block(j, w);
  solve_transposed_shared(0, w);
}

double ArrowFactor::solve_both(const RowView &row, std::span<double> w, std::span<double> y) const {
  double square = 0;
  count_.add(size());
  std::fill(w.begin(), w.end(), 0.0);
  if (diagonal_) {
    std::fill(y.begin(), y.end(), 0.0);
    for (const auto &[column, value] : row.terms) {
      w[column] = value * inverse_[column];
      y[column] = w[column] * inverse_[column];
      square += w[column] * w[column];
    }
    return square;
  }
  for (const auto &[column, value] : row.terms)
    w[column] = value;
  if (!shared_diagonal_) count_.add(static_cast<std::int64_t>(layout_->shared) * layout_->shared / 2);
  if (row.block >= 0) {
    solve_transposed_block(row.block, w);
    for (int c = layout_->local_start[row.block]; c < layout_->local_start[row.block + 1]; ++c)
      square += w[c] * w[c];
  }
  solve_transposed_shared(0, w);
  for (int c = 0; c < layout_->shared; ++c)
    square += w[c] * w[c];
  solve(w, y);
  return square;
}

double ArrowFactor::solve_both(std::span<double> w, std::span<double> y) const {
  double square = 0;
  count_.add(entries_);
  if (diagonal_) {
    return scale_twice(inverse_.data(), w.data(), y.data(), w.size());
  }
  solve_transposed(w);
  for (const double value : w)
    square += value * value;
  solve(w, y);
  return square;
}

void ArrowFactor::add_step(std::span<double> w, std::span<double> step, std::span<double> y) const {
  if (!diagonal_) {
    solve_both(w, step);
    for (std::size_t c = 0; c < y.size(); ++c)
      y[c] += step[c];
    return;
  }
  count_.add(entries_);
  const double *scale = inverse_.data();
  for (std::size_t c = 0; c < y.size(); ++c)
    y[c] += w[c] * scale[c] * scale[c];
}

void ArrowFactor::solve(std::span<const double> v, std::span<double> y) const {
  count_.add(entries_);
  if (diagonal_) {
    for (std::size_t c = 0; c < y.size(); ++c)
      y[c] = v[c] * inverse_[c];
    return;
  }
  for (int c = layout_->shared - 1; c >= 0; --c) {
    double rest = v[c];
    if (!shared_diagonal_) {
      const double *off = shared_row(c);
      for (int k = c + 1; k < layout_->shared; ++k)
        rest -= off[k] * y[k];
    }
    y[c] = rest * inverse_[c];
  }
  for (int j = 0; j < layout_->blocks(); ++j) {
    const auto columns = layout_->block_columns(j);
    for (int c = layout_->locals(j) - 1; c >= 0; --c) {
      const double *off = block_row(j, c);
      double rest = v[columns[c]];
      for (std::size_t k = c + 1; k < columns.size(); ++k)
        rest -= off[k] * y[columns[k]];
      y[columns[c]] = rest * inverse_[columns[c]];
    }
  }
}

} // namespace gatherwright::optimum
