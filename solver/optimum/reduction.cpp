// SPDX-License-Identifier: GPL-3.0-or-later
#include "optimum/reduction.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace gatherwright::optimum {

namespace {

/// A row whose part outside the others is less than this share of its own length depends on them.
constexpr double dependent_share = 1e-11;

/// A coefficient that cancels to less than this share of its row is rounding (a few 1e-16, times entries of the map of
/// order 1 to 100): left in, it would be taken for a direction in which the row can be met.
constexpr double cancelled = 1e-13;

/// Pivoted Householder QR of a rows x columns matrix (column by column), in place: R above the diagonal, vectors below
/// it (their first entry is 1), `scale` of each. Stops where no column is longer than `least`. Returns the rank.
int factor(std::vector<double> &matrix, int rows, int columns, double least, std::vector<double> &scale,
           std::vector<int> &pivots) {
  const auto column = [&](int c) { return matrix.data() + static_cast<std::size_t>(c) * rows; };
  const auto length = [&](int c, int from) {
    double square = 0;
    for (int i = from; i < rows; ++i)
      square += column(c)[i] * column(c)[i];
    return std::sqrt(square);
  };
  pivots.resize(columns);
  std::iota(pivots.begin(), pivots.end(), 0);
  scale.clear();
  for (int k = 0; k < std::min(rows, columns); ++k) {
    int longest = k;
    double norm = length(k, k);
    for (int c = k + 1; c < columns; ++c) {
      const double other = length(c, k);
      // A column must be longer by more than rounding to come first, so that equal columns keep their order.
      if (other > norm * (1 + 1e-9)) {
        norm = other;
        longest = c;
      }
    }
    if (norm <= least) return k;
    if (longest != k) {
      std::swap_ranges(column(k), column(k) + rows, column(longest));
      std::swap(pivots[k], pivots[longest]);
    }
    double *vector = column(k);
    const double beta = vector[k] > 0 ? -norm : norm;
    const double head = vector[k] - beta;
    for (int i = k + 1; i < rows; ++i)
      vector[i] /= head;
    vector[k] = beta;
    scale.push_back(-head / beta);
    for (int c = k + 1; c < columns; ++c) {
      double along = column(c)[k];
      for (int i = k + 1; i < rows; ++i)
        along += vector[i] * column(c)[i];
      along *= scale[k];
      column(c)[k] -= along;
      for (int i = k + 1; i < rows; ++i)
        column(c)[i] -= along * vector[i];
    }
  }
  return std::min(rows, columns);
}

/// Applies Householder reflection k to a vector.
void reflect(const std::vector<double> &qr, int rows, double scale, int k, double *vector) {
  const double *householder = qr.data() + static_cast<std::size_t>(k) * rows;
  double along = vector[k];
  for (int i = k + 1; i < rows; ++i)
    along += householder[i] * vector[i];
  along *= scale;
  vector[k] -= along;
  for (int i = k + 1; i < rows; ++i)
    vector[i] -= along * householder[i];
}

} // namespace

const Rows &rows_of(const Problem &problem, const RowName &name) {
  switch (name.set) {
  case RowName::Set::equal:
    return problem.equal;
  case RowName::Set::at_least:
    return problem.at_least;
  case RowName::Set::limits:
    return problem.limits;
  case RowName::Set::wishes:
    break;
  }
  return problem.wishes[name.level];
}

void ReducedRows::clear() {
  values.clear();
  value_start.assign(1, 0);
  columns.clear();
  column_start.assign(1, 0);
  block.clear();
  rest.clear();
  norm.clear();
}

RowView ReducedRows::view(int i, const Layout &layout) const {
  const auto row_values = std::span(values).subspan(value_start[i], value_start[i + 1] - value_start[i]);
  if (block[i] >= 0) return {layout.block_columns(block[i]), row_values, block[i]};
  return {std::span(columns).subspan(column_start[i], column_start[i + 1] - column_start[i]), row_values, -1};
}

void Reduction::begin(const Problem &problem) {
  problem_ = &problem;
  point_.assign(problem.unknowns, 0.0);
  block_of_unknown_.assign(problem.unknowns, -1);
  maps_.resize(problem.blocks());
  touched_.resize(problem.blocks());
  stages_.clear();
  held_.clear();
  for (int j = 0, first = 0; j < problem.blocks(); ++j) {
    maps_[j].begin = first;
    maps_[j].size = maps_[j].locals = problem.block_ends[j] - first;
    std::fill(block_of_unknown_.begin() + first, block_of_unknown_.begin() + problem.block_ends[j], j);
    first = problem.block_ends[j];
    touched_[j].clear();
  }
  for (const Rows *rows : {&problem.equal, &problem.at_least, &problem.limits})
    find_touched(*rows);
  for (const Rows &rows : problem.wishes)
    find_touched(rows);
  for (int j = 0; j < problem.blocks(); ++j) {
    auto &touched = touched_[j];
    std::sort(touched.begin(), touched.end());
    touched.erase(std::unique(touched.begin(), touched.end()), touched.end());
    const std::size_t width = maps_[j].locals + touched.size();
    maps_[j].map.assign(maps_[j].size * width, 0.0);
    for (int i = 0; i < maps_[j].size; ++i)
      maps_[j].map[i * width + i] = 1;
  }
  lay_out();
}

void Reduction::find_touched(const Rows &rows) {
  const int shared_begin = problem_->shared_begin();
  for (int i = 0; i < rows.size(); ++i) {
    const int block = block_of(rows.row(i));
    if (block < 0) continue;
    for (const Term &term : rows.row(i))
      if (term.column >= shared_begin) touched_[block].push_back(term.column - shared_begin);
  }
}

int Reduction::block_of(std::span<const Term> row) const {
  for (const Term &term : row)
    if (block_of_unknown_[term.column] >= 0) return block_of_unknown_[term.column];
  return -1;
}

void Reduction::lay_out() {
  layout_.shared = problem_->unknowns - problem_->shared_begin();
  layout_.local_start.assign(1, layout_.shared);
  layout_.column_start.assign(1, 0);
  layout_.columns.clear();
  for (std::size_t j = 0; j < maps_.size(); ++j) {
    const int first = layout_.local_start.back();
    for (int c = 0; c < maps_[j].locals; ++c)
      layout_.columns.push_back(first + c);
    layout_.columns.insert(layout_.columns.end(), touched_[j].begin(), touched_[j].end());
    layout_.local_start.push_back(first + maps_[j].locals);
    layout_.column_start.push_back(static_cast<int>(layout_.columns.size()));
  }
}

void Reduction::reduce(std::span<const Term> row, double bound, ReducedRows &into) const {
  const int shared_begin = problem_->shared_begin();
  const int block = block_of(row);
  double square = 0;
  for (const Term &term : row) {
    bound -= term.value * point_[term.column];
    square += term.value * term.value;
  }
  if (block < 0) {
    for (const Term &term : row) {
      into.columns.push_back(term.column - shared_begin);
      into.values.push_back(term.value);
    }
  } else {
    const BlockMap &map = maps_[block];
    const auto &touched = touched_[block];
    const std::size_t width = map.locals + touched.size();
    const std::size_t first = into.values.size();
    into.values.resize(first + width, 0.0);
    double *values = into.values.data() + first;
    for (const Term &term : row) {
      if (term.column >= shared_begin) {
        const auto at = std::lower_bound(touched.begin(), touched.end(), term.column - shared_begin);
        values[map.locals + (at - touched.begin())] += term.value;
        continue;
      }
      const double *of_unknown = map.map.data() + (term.column - map.begin) * width;
      for (std::size_t c = 0; c < width; ++c)
        values[c] += term.value * of_unknown[c];
    }
    for (std::size_t c = 0; c < width; ++c)
      if (std::abs(values[c]) <= cancelled * std::sqrt(square)) values[c] = 0;
  }
  into.value_start.push_back(static_cast<int>(into.values.size()));
  into.column_start.push_back(static_cast<int>(into.columns.size()));
  into.block.push_back(block);
  into.rest.push_back(bound);
  into.norm.push_back(std::sqrt(square));
}

void Reduction::hold(std::span<const RowName> rows, std::span<const double> bounds) {
  Stage &stage = stages_.emplace_back();
  const int last = static_cast<int>(maps_.size());
  std::vector<std::pair<int, int>> order; // block, index
  for (int i = 0; i < static_cast<int>(rows.size()); ++i) {
    const int block = block_of(rows_of(*problem_, rows[i]).row(rows[i].row));
    order.emplace_back(block < 0 ? last : block, i);
  }
  std::sort(order.begin(), order.end());
  ReducedRows reduced;
  for (const auto &[block, i] : order) {
    stage.rows.push_back(rows[i]);
    reduce(rows_of(*problem_, rows[i]).row(rows[i].row), bounds.empty() ? 0 : bounds[i], reduced);
    if (bounds.empty()) reduced.rest.back() = 0;
  }
  int first = 0;
  while (first < reduced.size() && reduced.block[first] >= 0) {
    int end = first;
    while (end < reduced.size() && reduced.block[end] == reduced.block[first])
      ++end;
    hold_block(stage, reduced.block[first], first, end - first, reduced);
    first = end;
  }
  stage.shared_rows = reduced.size() - first;
  stage.first_shared_held = held_.size();
  for (int i = first; i < reduced.size(); ++i) {
    const RowView view = reduced.view(i, layout_);
    held_.columns.insert(held_.columns.end(), view.columns.begin(), view.columns.end());
    held_.values.insert(held_.values.end(), view.values.begin(), view.values.end());
    held_.column_start.push_back(static_cast<int>(held_.columns.size()));
    held_.value_start.push_back(static_cast<int>(held_.values.size()));
    held_.block.push_back(-1);
    held_.rest.push_back(reduced.rest[i]);
    held_.norm.push_back(reduced.norm[i]);
  }
  lay_out();
}

void Reduction::hold_block(Stage &stage, int block, int first_row, int rows, const ReducedRows &reduced) {
  const BlockMap &map = maps_[block];
  const int touched = static_cast<int>(touched_[block].size());
  StageBlock &own = stage.blocks.emplace_back();
  own.block = block;
  own.rows = rows;
  own.locals = map.locals;
  own.first_row = first_row;
  own.first_held = held_.size();
  own.qr.resize(static_cast<std::size_t>(rows) * map.locals);
  std::vector<double> border(static_cast<std::size_t>(rows) * touched);
  std::vector<double> bounds(reduced.rest.begin() + first_row, reduced.rest.begin() + first_row + rows);
  double longest = 0;
  for (int i = 0; i < rows; ++i) {
    const double *values = reduced.values.data() + reduced.value_start[first_row + i];
    for (int c = 0; c < map.locals; ++c)
      own.qr[static_cast<std::size_t>(c) * rows + i] = values[c];
    for (int c = 0; c < touched; ++c)
      border[static_cast<std::size_t>(c) * rows + i] = values[map.locals + c];
    longest = std::max(longest, reduced.norm[first_row + i]);
  }
  own.entry.resize(static_cast<std::size_t>(map.size) * map.locals);
  const std::size_t width = map.locals + touched;
  for (int i = 0; i < map.size; ++i)
    std::copy_n(map.map.data() + i * width, map.locals, own.entry.data() + static_cast<std::size_t>(i) * map.locals);
  own.rank = factor(own.qr, rows, map.locals, dependent_share * longest, own.scale, own.pivots);
  for (int k = 0; k < own.rank; ++k) {
    for (int c = 0; c < touched; ++c)
      reflect(own.qr, rows, own.scale[k], k, border.data() + static_cast<std::size_t>(c) * rows);
    reflect(own.qr, rows, own.scale[k], k, bounds.data());
  }
  for (int i = own.rank; i < rows; ++i) {
    for (int c = 0; c < touched; ++c) {
      const double value = border[static_cast<std::size_t>(c) * rows + i];
      // What is left of a row that depends on others is rounding: it must not be taken for a condition on the shared
      // unknowns.
      if (std::abs(value) <= dependent_share * longest) continue;
      held_.columns.push_back(touched_[block][c]);
      held_.values.push_back(value);
    }
    held_.column_start.push_back(static_cast<int>(held_.columns.size()));
    held_.value_start.push_back(static_cast<int>(held_.values.size()));
    held_.block.push_back(-1);
    held_.rest.push_back(bounds[i]);
    held_.norm.push_back(longest);
  }
  substitute(own, border, bounds);
}

/// t_a = R11^-1 (bounds - R12 t_b - border f) put into the block's map and the point.
void Reduction::substitute(const StageBlock &stage, std::span<const double> border, std::span<const double> bounds) {
  BlockMap &map = maps_[stage.block];
  const int touched = static_cast<int>(touched_[stage.block].size());
  const int rank = stage.rank;
  const int left = stage.locals - rank;
  const std::size_t width = stage.locals + touched;
  const std::size_t new_width = left + touched;
  // Columns of R11^-1 [R12, border, bounds].
  std::vector<double> solved(static_cast<std::size_t>(rank) * (new_width + 1));
  const auto column = [&](std::size_t c) { return solved.data() + c * rank; };
  for (int c = 0; c < left; ++c)
    std::copy_n(stage.qr.data() + static_cast<std::size_t>(rank + c) * stage.rows, rank, column(c));
  for (int c = 0; c < touched; ++c)
    std::copy_n(border.data() + static_cast<std::size_t>(c) * stage.rows, rank, column(left + c));
  std::copy_n(bounds.data(), rank, column(new_width));
  for (std::size_t c = 0; c <= new_width; ++c)
    for (int i = rank - 1; i >= 0; --i) {
      double &value = column(c)[i];
      for (int k = i + 1; k < rank; ++k)
        value -= stage.qr[static_cast<std::size_t>(k) * stage.rows + i] * column(c)[k];
      value /= stage.qr[static_cast<std::size_t>(i) * stage.rows + i];
    }
  std::vector<double> next(map.size * new_width);
  for (int i = 0; i < map.size; ++i) {
    const double *before = map.map.data() + i * width;
    double *after = next.data() + i * new_width;
    for (int c = 0; c < left; ++c)
      after[c] = before[stage.pivots[rank + c]];
    for (int c = 0; c < touched; ++c)
      after[left + c] = before[stage.locals + c];
    for (int k = 0; k < rank; ++k) {
      const double basic = before[stage.pivots[k]];
      if (basic == 0) continue;
      for (std::size_t c = 0; c < new_width; ++c)
        after[c] -= basic * column(c)[k];
      point_[map.begin + i] += basic * column(new_width)[k];
    }
  }
  map.map = std::move(next);
  map.locals = left;
}

void Reduction::displacement(std::span<const double> y, std::vector<double> &by) const {
  by.assign(point_.size(), 0.0);
  for (std::size_t j = 0; j < maps_.size(); ++j) {
    const auto columns = layout_.block_columns(static_cast<int>(j));
    for (int i = 0; i < maps_[j].size; ++i) {
      const double *of_unknown = maps_[j].map.data() + i * columns.size();
      for (std::size_t c = 0; c < columns.size(); ++c) by[maps_[j].begin + i] += of_unknown[c] * y[columns[c]];
    }
  }
  for (int s = 0; s < layout_.shared; ++s) by[problem_->shared_begin() + s] = y[s];
}

void Reduction::move(std::span<const double> y) {
  displacement(y, moved_by_);
  for (std::size_t i = 0; i < point_.size(); ++i) point_[i] += moved_by_[i];
  for (int i = 0; i < held_.size(); ++i) {
    const RowView row = held_.view(i, layout_);
    for (std::size_t k = 0; k < row.columns.size(); ++k) held_.rest[i] -= row.values[k] * y[row.columns[k]];
  }
}

void Reduction::multipliers(std::span<const double> of_held, std::span<double> gradient, Multipliers &into) const {
  const auto give = [&](const RowName &name, double multiplier) {
    switch (name.set) {
    case RowName::Set::equal:
      into.equal[name.row] = multiplier;
      break;
    case RowName::Set::at_least:
      into.at_least[name.row] = multiplier;
      break;
    case RowName::Set::limits:
      into.limits[name.row] = multiplier;
      break;
    case RowName::Set::wishes:
      into.wishes[name.level][name.row] = multiplier;
      break;
    }
    if (multiplier != 0)
      for (const Term &term : rows_of(*problem_, name).row(name.row))
        gradient[term.column] -= multiplier * term.value;
  };
  std::vector<double> right;
  for (auto stage = stages_.rbegin(); stage != stages_.rend(); ++stage) {
    for (const StageBlock &own : stage->blocks) {
      const BlockMap &map = maps_[own.block];
      right.assign(own.rows, 0.0);
      for (int k = 0; k < own.rank; ++k) {
        for (int i = 0; i < map.size; ++i)
          right[k] += own.entry[static_cast<std::size_t>(i) * own.locals + own.pivots[k]] * gradient[map.begin + i];
        for (int i = 0; i < k; ++i)
          right[k] -= own.qr[static_cast<std::size_t>(k) * own.rows + i] * right[i];
        right[k] /= own.qr[static_cast<std::size_t>(k) * own.rows + k];
      }
      for (int i = own.rank; i < own.rows; ++i)
        right[i] = of_held[own.first_held + i - own.rank];
      for (int k = own.rank - 1; k >= 0; --k)
        reflect(own.qr, own.rows, own.scale[k], k, right.data());
      for (int i = 0; i < own.rows; ++i)
        give(stage->rows[own.first_row + i], right[i]);
    }
    const int first = static_cast<int>(stage->rows.size()) - stage->shared_rows;
    for (int i = 0; i < stage->shared_rows; ++i)
      give(stage->rows[first + i], of_held[stage->first_shared_held + i]);
  }
}

} // namespace gatherwright::optimum
