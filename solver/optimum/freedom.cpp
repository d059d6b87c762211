// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/freedom.hpp"

#include "solver/optimum/dense.hpp"
#include "solver/optimum/tolerances.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright::optimum {

bool Freedom::begin(const Problem &problem, const WorkCounter &count) {
  shared_begin_ = problem.shared_begin();
  point_.assign(problem.unknowns, 0.0);
  open_.begin(problem.unknowns - shared_begin_);
  count.add(problem.unknowns);
  if (!maps_.begin(problem, count)) return false;
  lay_out();
  return true;
}

void Freedom::begin(const Freedom &from) {
  shared_begin_ = from.shared_begin_;
  open_ = from.open_;
  maps_ = from.maps_;
  layout_ = from.layout_;
  point_.assign(from.point_.size(), 0.0);
}

void Freedom::lay_out() {
  std::size_t columns = 0;
  for (const BlockMap &map : maps_.all())
    columns += map.width();
  layout_.columns.reserve(columns);
  layout_.local_start.reserve(maps_.size() + 1);
  layout_.column_start.reserve(maps_.size() + 1);
  layout_.shared = open_.size();
  layout_.local_start.assign(1, layout_.shared);
  layout_.column_start.assign(1, 0);
  layout_.columns.clear();
  for (const BlockMap &map : maps_.all()) {
    const int first = layout_.local_start.back();
    for (int c = 0; c < map.locals; ++c)
      layout_.columns.push_back(first + c);
    for (const int s : map.touched)
      layout_.columns.push_back(open_.place(s));
    layout_.local_start.push_back(first + map.locals);
    layout_.column_start.push_back(static_cast<int>(layout_.columns.size()));
  }
}

/// All rows where every unknown is free and shared: their terms are what they were.
void Freedom::append_whole(const Rows &rows, ReducedRows &into) const {
  const double *point = point_.data();
  ReducedRows::Pen pen = into.pen(rows.size(), rows.terms.size());
  const Term *term = rows.terms.data();
  std::copy(rows.terms.begin(), rows.terms.end(), pen.terms + pen.end);
  for (std::size_t i = 0, count = rows.bound.size(); i < count; ++i) {
    const Term *const first = term;
    const Term *const end = rows.terms.data() + rows.start[i + 1];
    if (end - first == 1) {
      ++pen.end;
      pen.end_row(-1, rows.bound[i] - first->value * point[first->column], std::abs(first->value));
      term = end;
      continue;
    }
    double rest = rows.bound[i];
    double square = 0;
    for (; term != end; ++term) {
      rest -= term->value * point[term->column];
      square += term->value * term->value;
    }
    pen.end += static_cast<int>(end - first);
    pen.end_row(-1, rest, std::sqrt(square));
  }
  into.take(pen);
}

/// A row of shared unknowns alone, to where room has been made for it.
[[gnu::always_inline]] inline bool Freedom::append_shared(std::span<const Term> row, double bound,
                                                          ReducedRows::Pen &pen) const {
  const int *place = open_.places() - shared_begin_;
  const double *point = point_.data();
  if (row.size() == 1) {
    const auto &[column, value] = row[0];
    if (place[column] >= 0) pen.put(place[column], value);
    pen.end_row(-1, bound - value * point[column], std::abs(value));
    return false;
  }
  double most = 0;
  double square = 0;
  for (const auto &[column, value] : row) {
    bound -= value * point[column];
    square += value * value;
    if (place[column] < 0) continue;
    most = std::max(most, std::abs(value));
    pen.put(place[column], value);
  }
  const double length = std::sqrt(square);
  if (!(most > tolerance::dependent_share * length)) pen.drop_terms();
  pen.end_row(-1, bound, length);
  return tolerance::is_nearly_parallel(most, length);
}

bool Freedom::append(std::span<const Term> row, double bound, ReducedRows &into, const WorkCounter &count) {
  const int block = maps_.block_of(row);
  if (block >= 0) return append_of_block(row, block, bound, into, count);
  ReducedRows::Pen pen = into.pen(1, row.size());
  const bool nearly_parallel = append_shared(row, bound, pen);
  into.take(pen);
  return nearly_parallel;
}

bool Freedom::append(const Rows &rows, ReducedRows &into, const WorkCounter &count) {
  bool nearly_parallel = false;
  if (!maps_.empty()) {
    for (int i = 0; i < rows.size(); ++i)
      nearly_parallel |= append(rows.row(i), rows.bound[i], into, count);
    return nearly_parallel;
  }
  if (all_is_shared_and_open()) {
    append_whole(rows, into);
    return false;
  }
  ReducedRows::Pen pen = into.pen(rows.size(), rows.terms.size());
  for (int i = 0, count_of_rows = rows.size(); i < count_of_rows; ++i)
    nearly_parallel |= append_shared(rows.row(i), rows.bound[i], pen);
  into.take(pen);
  return nearly_parallel;
}

bool Freedom::append(const Rows &rows, std::span<const int> which, ReducedRows &into, const WorkCounter &count) {
  bool nearly_parallel = false;
  if (!maps_.empty()) {
    for (const int i : which)
      nearly_parallel |= append(rows.row(i), rows.bound[i], into, count);
    return nearly_parallel;
  }
  ReducedRows::Pen pen = into.pen(static_cast<int>(which.size()), rows.terms.size());
  for (const int i : which)
    nearly_parallel |= append_shared(rows.row(i), rows.bound[i], pen);
  into.take(pen);
  return nearly_parallel;
}

bool Freedom::append_of_block(std::span<const Term> row, int block, double bound, ReducedRows &into,
                              const WorkCounter &count) {
  const BlockMap &map = maps_[block];
  const int width = map.width();
  count.add(static_cast<std::int64_t>(row.size() + 3) * width);
  ReducedRows::Pen pen = into.pen(1, width);
  if (row.size() == 1) {
    // Not shared, or the row would not be the block's.
    const auto &[column, value] = row[0];
    const int i = column - map.begin;
    const bool nearly_parallel = put(map.row(i), value, std::abs(value) * map.most[i], block, pen);
    pen.end_row(block, bound - value * point_[column], std::abs(value));
    into.take(pen);
    return nearly_parallel;
  }
  if (static_cast<int>(wide_.size()) < width) wide_.resize(width);
  double *wide = wide_.data();
  std::fill_n(wide, width, 0.0);
  double numbers = 0;
  double square = 0;
  for (const auto &[column, value] : row) {
    bound -= value * point_[column];
    square += value * value;
    if (column >= shared_begin_) {
      if (const int at = map.column_of(column - shared_begin_); at >= 0) wide[at] += value;
      numbers += std::abs(value);
      continue;
    }
    const int i = column - map.begin;
    if (map.is_whole())
      wide[i] += value;
    else
      add_times(wide, map.row(i), value, width);
    numbers += std::abs(value) * map.most[i];
  }
  const bool nearly_parallel = put(wide, 1, numbers, block, pen);
  pen.end_row(block, bound, std::sqrt(square));
  into.take(pen);
  return nearly_parallel;
}

/// Puts the terms of a block's row, so many times coefficients that were sums of such numbers, but for what is rounding
/// in them. Returns whether what is left of it is nearly parallel to what is not free.
bool Freedom::put(const double *coefficients, double times, double numbers, int block, ReducedRows::Pen &pen) const {
  const double nothing = tolerance::cancelled_coefficient * numbers;
  double most = 0;
  const double *coefficient = coefficients;
  for (const int column : layout_.block_columns(block)) {
    const double value = times * *coefficient++;
    const double size = std::abs(value);
    most = std::max(most, size);
    if (size > nothing) pen.put(column, value);
  }
  if (!(most > tolerance::dependent_share * numbers)) pen.drop_terms();
  return tolerance::is_nearly_parallel(most, numbers);
}

/// Calls take(unknown, T y) for the unknowns of blocks.
template <class Take>
void Freedom::for_each_local(std::span<const double> y, const WorkCounter &count, Take take) const {
  for (int j = 0; j < maps_.size(); ++j) {
    const BlockMap &map = maps_[j];
    const auto columns = layout_.block_columns(j);
    count.add(static_cast<std::int64_t>(map.map.size()));
    for (int i = 0; i < map.size; ++i) {
      const double *of_unknown = map.row(i);
      double sum = 0;
      for (std::size_t c = 0; c < columns.size(); ++c)
        sum += of_unknown[c] * y[columns[c]];
      take(map.begin + i, sum);
    }
  }
}

void Freedom::move(std::span<const double> y, const WorkCounter &count) {
  for (int s = 0; s < open_.size(); ++s)
    point_[shared_begin_ + open_.at(s)] += y[s];
  for_each_local(y, count, [&](int unknown, double by) { point_[unknown] += by; });
}

void Freedom::displacement(std::span<const double> y, std::span<double> by, const WorkCounter &count) const {
  std::fill(by.begin(), by.end(), 0.0);
  for (int s = 0; s < open_.size(); ++s)
    by[shared_begin_ + open_.at(s)] = y[s];
  for_each_local(y, count, [&](int unknown, double moved) { by[unknown] = moved; });
}

void Freedom::row_of(int unknown, std::span<double> row) const {
  std::fill(row.begin(), row.end(), 0.0);
  const int shared = unknown - shared_begin_;
  if (shared >= 0) {
    if (!open_.is_fixed(shared)) row[open_.place(shared)] = 1;
    return;
  }
  const int block = maps_.block_of(unknown);
  const auto columns = layout_.block_columns(block);
  const double *of_unknown = maps_[block].row(unknown - maps_[block].begin);
  for (std::size_t c = 0; c < columns.size(); ++c)
    row[columns[c]] = of_unknown[c];
}

void Freedom::towards(std::span<const double> x, std::span<double> y) const {
  for (int s = 0; s < open_.size(); ++s)
    y[s] = x[shared_begin_ + open_.at(s)] - point_[shared_begin_ + open_.at(s)];
  for (int j = 0; j < maps_.size(); ++j) {
    const BlockMap &map = maps_[j];
    for (int i = 0; i < map.size; ++i)
      if (const int local = map.local_of(i); local >= 0)
        y[layout_.block_columns(j)[local]] = x[map.begin + i] - point_[map.begin + i];
  }
}

} // namespace gatherwright::optimum
