// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/problem.hpp"

#include <algorithm>
#include <cmath>
#include <span>
#include <vector>

namespace gatherwright::optimum {

/// How the reduced unknowns lie: the shared ones, then the locals of each block one after another.
/// A block's rows have terms on its locals and on a fixed list of shared unknowns.
struct Layout {
  std::vector<int> local_start{0};  ///< blocks + 1, the first after the shared
  std::vector<int> column_start{0}; ///< blocks + 1, into `columns`
  std::vector<int> columns;         ///< per block: its locals, then the shared unknowns it touches, each ascending
  int shared = 0;

  int blocks() const { return static_cast<int>(local_start.size()) - 1; }
  int locals(int block) const { return local_start[block + 1] - local_start[block]; }
  int size() const { return local_start.back(); }
  std::span<const int> block_columns(int block) const {
    return std::span(columns).subspan(column_start[block], column_start[block + 1] - column_start[block]);
  }
};

/// A sparse row over the reduced unknowns.
struct RowView {
  std::span<const Term> terms; ///< in the order of the block's columns
  int block = -1;              ///< -1: shared unknowns only
};

/// Greatest absolute value of a coefficient; 0 of none.
inline double largest(std::span<const Term> terms) {
  double most = 0;
  for (const Term &term : terms)
    most = std::max(most, std::abs(term.value));
  return most;
}

/// Rows over the reduced unknowns, none of their values 0. Their room is kept when they are cleared, and looked after
/// once a row: they are written anew for every level.
class ReducedRows {
public:
  struct Row {
    int first = 0; ///< of its terms
    int end = 0;
    int block = -1;
    double rest = 0; ///< bound - row * point
    double norm = 0; ///< Euclidean, of the row before it was reduced: the measure of what is nothing in it
  };

  int size() const { return size_; }
  const Row &operator[](int i) const { return rows_[i]; }
  Row &operator[](int i) { return rows_[i]; }
  const Term *terms() const { return terms_.data(); }
  std::span<const Row> all() const { return {rows_.data(), static_cast<std::size_t>(size_)}; }
  std::span<const Term> all_terms() const { return {terms_.data(), static_cast<std::size_t>(end_)}; }
  RowView view(int i) const { return view(rows_[i]); }
  RowView view(const Row &row) const {
    return {{terms_.data() + row.first, static_cast<std::size_t>(row.end - row.first)}, row.block};
  }
  double times(const Row &row, const double *y) const {
    double sum = 0;
    for (const Term *term = terms_.data() + row.first, *end = terms_.data() + row.end; term != end; ++term)
      sum += term->value * y[term->column];
    return sum;
  }

  /// What a row misses at y. Most rows have one term or two.
  static double missed(const Row &row, const Term *first, const Term *end, const double *y) {
    double missed = row.rest;
    switch (end - first) {
    case 1:
      return missed - first->value * y[first->column];
    case 2:
      return missed - first[0].value * y[first[0].column] - first[1].value * y[first[1].column];
    default:
      for (; first != end; ++first)
        missed -= first->value * y[first->column];
    }
    return missed;
  }
  double missed(const Row &row, const double *y) const {
    return missed(row, terms_.data() + row.first, terms_.data() + row.end, y);
  }

  /// Where rows are written: it looks after no room, which is made beforehand.
  struct Pen {
    Term *terms = nullptr;
    Row *row = nullptr;
    int first = 0;
    int end = 0;

    void put(int column, double value) { terms[end++] = {column, value}; }
    /// Takes back what of the row has been put.
    void drop_terms() { end = first; }
    void end_row(int block, double rest, double norm) {
      *row++ = {first, end, block, rest, norm};
      first = end;
    }
  };

  /// A pen with room for so many more rows and terms; what it wrote is taken when it is done, before the next is made.
  Pen pen(int more_rows, std::size_t more_terms) {
    if (end_ + more_terms > terms_.size()) terms_.resize(2 * (end_ + more_terms) + a_few);
    if (more_rows > static_cast<int>(rows_.size()) - size_)
      rows_.resize(2 * (static_cast<std::size_t>(size_) + more_rows) + a_few);
    return {terms_.data(), rows_.data() + size_, end_, end_};
  }
  void take(const Pen &pen) {
    size_ = static_cast<int>(pen.row - rows_.data());
    end_ = pen.end;
  }
  void clear() { size_ = end_ = 0; }
  /// Leaves out rows after the first so many, which have no terms.
  void keep_first(int rows) { size_ = rows; }

private:
  /// Rows and terms that room is made for at least: it grows less often then.
  static constexpr std::size_t a_few = 30;

  std::vector<Term> terms_;
  std::vector<Row> rows_;
  int size_ = 0;
  int end_ = 0; ///< of the terms
};

} // namespace gatherwright::optimum
