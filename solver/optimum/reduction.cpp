// SPDX-License-Identifier: GPL-3.0-or-later
#include "optimum/reduction.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright::optimum {

namespace {

/// A row whose part outside the others is less than this share of its own length depends on them.
constexpr double dependent_share = 1e-11;

/// A coefficient that cancels to less than this share of the numbers it is a sum of is rounding (a few 1e-16 in each
/// entry of the map): left in, it would be taken for a direction in which the row can be met.
constexpr double cancelled = 1e-13;

double length_of(std::span<const Term> row) {
  if (row.size() == 1) return std::abs(row[0].value);
  double square = 0;
  for (const Term &term : row)
    square += term.value * term.value;
  return std::sqrt(square);
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

void Reduction::begin(const Problem &problem) {
  problem_ = &problem;
  const int shared_begin = problem.shared_begin();
  point_.assign(problem.unknowns, 0.0);
  stages_used_ = 0;
  stage_blocks_used_ = 0;
  left_.clear();
  fate_.clear();
  fixes_.clear();
  fix_terms_.clear();
  open_.resize(problem.unknowns - shared_begin);
  place_.resize(open_.size());
  for (std::size_t s = 0; s < open_.size(); ++s)
    open_[s] = place_[s] = static_cast<int>(s);
  maps_.resize(problem.blocks());
  if (problem.blocks() > 0) {
    block_of_unknown_.assign(problem.unknowns, -1);
    for (int j = 0, first = 0; j < problem.blocks(); ++j) {
      maps_[j].begin = first;
      maps_[j].size = maps_[j].locals = problem.block_ends[j] - first;
      std::fill(block_of_unknown_.begin() + first, block_of_unknown_.begin() + problem.block_ends[j], j);
      first = problem.block_ends[j];
      maps_[j].touched.clear();
    }
    for (const Rows *rows : {&problem.equal, &problem.at_least, &problem.limits})
      find_touched(*rows);
    for (const Rows &rows : problem.wishes)
      find_touched(rows);
  }
  for (BlockMap &map : maps_) {
    std::sort(map.touched.begin(), map.touched.end());
    map.touched.erase(std::unique(map.touched.begin(), map.touched.end()), map.touched.end());
    map.map.assign(static_cast<std::size_t>(map.size) * map.width(), 0.0);
    for (int i = 0; i < map.size; ++i)
      map.map[static_cast<std::size_t>(i) * map.width() + i] = 1;
    map.most.assign(map.size, 1.0);
  }
  lay_out();
}

void Reduction::find_touched(const Rows &rows) {
  const int shared_begin = problem_->shared_begin();
  for (int i = 0; i < rows.size(); ++i) {
    const int block = block_of(rows.row(i));
    if (block < 0) continue;
    for (const Term &term : rows.row(i))
      if (term.column >= shared_begin) maps_[block].touched.push_back(term.column - shared_begin);
  }
}

int Reduction::block_of(std::span<const Term> row) const {
  if (maps_.empty()) return -1;
  for (const Term &term : row)
    if (block_of_unknown_[term.column] >= 0) return block_of_unknown_[term.column];
  return -1;
}

void Reduction::lay_out() {
  layout_.shared = static_cast<int>(open_.size());
  layout_.local_start.assign(1, layout_.shared);
  layout_.column_start.assign(1, 0);
  layout_.columns.clear();
  for (const BlockMap &map : maps_) {
    const int first = layout_.local_start.back();
    for (int c = 0; c < map.locals; ++c)
      layout_.columns.push_back(first + c);
    for (const int s : map.touched)
      layout_.columns.push_back(place_[s]);
    layout_.local_start.push_back(first + map.locals);
    layout_.column_start.push_back(static_cast<int>(layout_.columns.size()));
  }
}

void Reduction::reduce(std::span<const Term> row, double bound, ReducedRows &into) {
  const int shared_begin = problem_->shared_begin();
  const int block = block_of(row);
  for (const Term &term : row)
    bound -= term.value * point_[term.column];
  if (block < 0) {
    const double length = length_of(row);
    double most = 0;
    for (const Term &term : row)
      if (place_[term.column - shared_begin] >= 0) most = std::max(most, std::abs(term.value));
    if (most > dependent_share * length)
      for (const Term &term : row)
        if (place_[term.column - shared_begin] >= 0) into.put(place_[term.column - shared_begin], term.value);
    into.end_row(-1, bound, length);
    return;
  }
  const BlockMap &map = maps_[block];
  const int width = map.width();
  wide_.assign(width, 0.0);
  double numbers = 0;
  for (const Term &term : row) {
    if (term.column >= shared_begin) {
      const auto at = std::lower_bound(map.touched.begin(), map.touched.end(), term.column - shared_begin);
      if (at != map.touched.end() && *at == term.column - shared_begin)
        wide_[map.locals + (at - map.touched.begin())] += term.value;
      numbers += std::abs(term.value);
      continue;
    }
    const double *of_unknown = map.map.data() + static_cast<std::size_t>(term.column - map.begin) * width;
    for (int c = 0; c < width; ++c)
      wide_[c] += term.value * of_unknown[c];
    numbers += std::abs(term.value) * map.most[term.column - map.begin];
  }
  const auto columns = layout_.block_columns(block);
  double most = 0;
  for (int c = 0; c < width; ++c)
    most = std::max(most, std::abs(wide_[c]));
  if (most > dependent_share * numbers)
    for (int c = 0; c < width; ++c)
      if (std::abs(wide_[c]) > cancelled * numbers) into.put(columns[c], wide_[c]);
  into.end_row(block, bound, length_of(row));
}

int Reduction::append_held(ReducedRows &into) const {
  int held = 0;
  for (int i = 0; i < left_.size(); ++i) {
    if (fate_[i] == Fate::fixes) continue;
    const RowView row = left_.view(i);
    for (std::size_t k = 0; k < row.columns.size(); ++k)
      if (place_[row.columns[k]] >= 0) into.put(place_[row.columns[k]], row.values[k]);
    into.end_row(-1, left_.rest[i], left_.norm[i]);
    ++held;
  }
  return held;
}

void Reduction::order(std::span<const RowName> rows) {
  const int last = static_cast<int>(maps_.size());
  order_.clear();
  for (int i = 0; i < static_cast<int>(rows.size()); ++i) {
    const int block = block_of(rows_of(*problem_, rows[i]).row(rows[i].row));
    order_.emplace_back(block < 0 ? last : block, i);
  }
  if (last > 0) std::sort(order_.begin(), order_.end());
}

void Reduction::hold(std::span<const RowName> rows, Hold at) {
  if (rows.empty()) return;
  if (stages_used_ == static_cast<int>(stages_.size())) stages_.emplace_back();
  Stage &stage = stages_[stages_used_++];
  order(rows);
  stage.rows.clear();
  reduced_.clear();
  for (const auto &[block, i] : order_) {
    stage.rows.push_back(rows[i]);
    const Rows &of = rows_of(*problem_, rows[i]);
    reduce(of.row(rows[i].row), of.bound[rows[i].row], reduced_);
    if (at == Hold::at_point) reduced_.rest.back() = 0;
  }
  stage.first_block = stage_blocks_used_;
  stage.first_left = left_.size();
  int first = 0;
  while (first < reduced_.size() && reduced_.block[first] >= 0) {
    int end = first;
    while (end < reduced_.size() && reduced_.block[end] == reduced_.block[first])
      ++end;
    hold_block(reduced_.block[first], first, end);
    first = end;
  }
  stage.end_block = stage_blocks_used_;
  stage.first_shared_left = left_.size();
  keep_shared_rows(first);
  stage.end_left = left_.size();
  stage.first_fix = static_cast<int>(fixes_.size());
  fix_single_ones();
  stage.end_fix = static_cast<int>(fixes_.size());
  if (stage.end_fix > stage.first_fix) close_fixed();
  lay_out();
}

void Reduction::keep_shared_rows(int first_row) {
  for (int i = first_row; i < reduced_.size(); ++i) {
    const RowView row = reduced_.view(i);
    for (std::size_t k = 0; k < row.columns.size(); ++k)
      left_.put(open_[row.columns[k]], row.values[k]);
    left_.end_row(-1, reduced_.rest[i], reduced_.norm[i]);
    fate_.push_back(Fate::kept);
  }
}

void Reduction::hold_block(int block, int first_row, int end_row) {
  const BlockMap &map = maps_[block];
  const int touched = static_cast<int>(map.touched.size());
  const int rows = end_row - first_row;
  if (stage_blocks_used_ == static_cast<int>(stage_blocks_.size())) stage_blocks_.emplace_back();
  StageBlock &own = stage_blocks_[stage_blocks_used_++];
  own.block = block;
  own.first_row = first_row;
  own.first_left = left_.size();
  own.qr.rows = rows;
  own.qr.columns = map.locals;
  own.qr.matrix.assign(static_cast<std::size_t>(rows) * map.locals, 0.0);
  own.shrink.resize(rows);
  border_.assign(static_cast<std::size_t>(rows) * touched, 0.0);
  bounds_.resize(rows);
  const auto columns = layout_.block_columns(block);
  for (int i = 0; i < rows; ++i) {
    const RowView row = reduced_.view(first_row + i);
    const double shrink = 1 / reduced_.norm[first_row + i];
    own.shrink[i] = shrink;
    bounds_[i] = shrink * reduced_.rest[first_row + i];
    for (std::size_t k = 0, c = 0; k < row.columns.size(); ++k, ++c) {
      while (columns[c] != row.columns[k])
        ++c;
      const bool local = static_cast<int>(c) < map.locals;
      (local ? own.qr.column(static_cast<int>(c)) : border_.data() + (c - map.locals) * rows)[i] =
          shrink * row.values[k];
    }
  }
  own.entry.resize(static_cast<std::size_t>(map.size) * map.locals);
  for (int i = 0; i < map.size; ++i)
    std::copy_n(map.map.data() + static_cast<std::size_t>(i) * map.width(), map.locals,
                own.entry.data() + static_cast<std::size_t>(i) * map.locals);
  own.qr.factor(dependent_share);
  for (int k = 0; k < own.qr.rank; ++k) {
    for (int c = 0; c < touched; ++c)
      own.qr.reflect(k, border_.data() + static_cast<std::size_t>(c) * rows);
    own.qr.reflect(k, bounds_.data());
  }
  for (int i = own.qr.rank; i < rows; ++i) {
    for (int c = 0; c < touched; ++c) {
      const double value = border_[static_cast<std::size_t>(c) * rows + i];
      // What is left of a row that depends on others is rounding: it must not be taken for a condition on the shared
      // unknowns.
      if (std::abs(value) > dependent_share) left_.put(map.touched[c], value);
    }
    left_.end_row(-1, bounds_[i], 1);
    fate_.push_back(Fate::kept);
  }
  substitute(own);
}

/// t_a = R11^-1 (bounds - R12 t_b - border f) put into the block's map and the point.
void Reduction::substitute(const StageBlock &own) {
  BlockMap &map = maps_[own.block];
  const PivotedQr &qr = own.qr;
  const int touched = static_cast<int>(map.touched.size());
  const int rank = qr.rank;
  const int left = map.locals - rank;
  const int width = map.width();
  const int new_width = left + touched;
  // Columns of R11^-1 [R12, border, bounds].
  solved_.resize(static_cast<std::size_t>(rank) * (new_width + 1));
  const auto column = [&](int c) { return solved_.data() + static_cast<std::size_t>(c) * rank; };
  for (int c = 0; c < left; ++c)
    std::copy_n(qr.column(rank + c), rank, column(c));
  for (int c = 0; c < touched; ++c)
    std::copy_n(border_.data() + static_cast<std::size_t>(c) * qr.rows, rank, column(left + c));
  std::copy_n(bounds_.data(), rank, column(new_width));
  for (int c = 0; c <= new_width; ++c)
    for (int i = rank - 1; i >= 0; --i) {
      double &value = column(c)[i];
      for (int k = i + 1; k < rank; ++k)
        value -= qr.column(k)[i] * column(c)[k];
      value /= qr.column(i)[i];
    }
  next_.resize(static_cast<std::size_t>(map.size) * new_width);
  for (int i = 0; i < map.size; ++i) {
    const double *before = map.map.data() + static_cast<std::size_t>(i) * width;
    double *after = next_.data() + static_cast<std::size_t>(i) * new_width;
    for (int c = 0; c < left; ++c)
      after[c] = before[qr.pivots[rank + c]];
    for (int c = 0; c < touched; ++c)
      after[left + c] = before[map.locals + c];
    for (int k = 0; k < rank; ++k) {
      const double basic = before[qr.pivots[k]];
      if (basic == 0) continue;
      for (int c = 0; c < new_width; ++c)
        after[c] -= basic * column(c)[k];
      point_[map.begin + i] += basic * column(new_width)[k];
    }
    for (int c = 0; c < new_width; ++c)
      map.most[i] = std::max(map.most[i], std::abs(after[c]));
  }
  map.map.swap(next_);
  map.locals = left;
}

/// The place of a kept row's one term on an open unknown; -1 where it has none or several.
int Reduction::only_open_term(int left) const {
  int only = -1;
  for (int k = left_.start[left]; k < left_.start[left + 1]; ++k) {
    if (place_[left_.columns[k]] < 0 || std::abs(left_.values[k]) <= dependent_share * left_.norm[left]) continue;
    if (only >= 0) return -1;
    only = k;
  }
  return only;
}

void Reduction::fix_single_ones() {
  for (bool again = true; again;) {
    again = false;
    for (int i = 0; i < left_.size(); ++i) {
      if (fate_[i] == Fate::fixes) continue;
      const int term = only_open_term(i);
      if (term < 0) continue;
      fix(i, term);
      again = true;
    }
  }
}

void Reduction::fix(int left, int term) {
  const int shared_begin = problem_->shared_begin();
  const int shared = left_.columns[term];
  Fix &made = fixes_.emplace_back();
  made = {left, shared, left_.values[term], static_cast<int>(fix_terms_.size()), 0};
  fix_terms_.push_back({shared_begin + shared, 1.0});
  for (const BlockMap &map : maps_) {
    const auto at = std::lower_bound(map.touched.begin(), map.touched.end(), shared);
    if (at == map.touched.end() || *at != shared) continue;
    const int c = map.locals + static_cast<int>(at - map.touched.begin());
    for (int i = 0; i < map.size; ++i) {
      const double along = map.map[static_cast<std::size_t>(i) * map.width() + c];
      if (along != 0) fix_terms_.push_back({map.begin + i, along});
    }
  }
  made.end_term = static_cast<int>(fix_terms_.size());
  fate_[left] = Fate::fixes;
  place_[shared] = -1;
  const double by = left_.rest[left] / made.value;
  if (by == 0) return;
  for (int t = made.first_term; t < made.end_term; ++t)
    point_[fix_terms_[t].column] += by * fix_terms_[t].value;
  for (int i = 0; i < left_.size(); ++i)
    for (int k = left_.start[i]; k < left_.start[i + 1]; ++k)
      if (left_.columns[k] == shared) left_.rest[i] -= by * left_.values[k];
}

/// Takes the unknowns just fixed out of the blocks' maps and numbers the open ones anew.
void Reduction::close_fixed() {
  open_.clear();
  for (std::size_t s = 0; s < place_.size(); ++s)
    if (place_[s] >= 0) {
      place_[s] = static_cast<int>(open_.size());
      open_.push_back(static_cast<int>(s));
    }
  for (BlockMap &map : maps_) {
    const int width = map.width();
    const auto fixed = [&](int s) { return place_[s] < 0; };
    if (std::none_of(map.touched.begin(), map.touched.end(), fixed)) continue;
    double *to = map.map.data();
    for (int i = 0; i < map.size; ++i)
      for (int c = 0; c < width; ++c)
        if (c < map.locals || !fixed(map.touched[c - map.locals]))
          *to++ = map.map[static_cast<std::size_t>(i) * width + c];
    map.touched.erase(std::remove_if(map.touched.begin(), map.touched.end(), fixed), map.touched.end());
    map.map.resize(static_cast<std::size_t>(map.size) * map.width());
  }
}

void Reduction::displacement(std::span<const double> y, std::span<double> by) const {
  std::fill(by.begin(), by.end(), 0.0);
  for (std::size_t j = 0; j < maps_.size(); ++j) {
    const BlockMap &map = maps_[j];
    const auto columns = layout_.block_columns(static_cast<int>(j));
    for (int i = 0; i < map.size; ++i) {
      const double *of_unknown = map.map.data() + i * columns.size();
      double sum = 0;
      for (std::size_t c = 0; c < columns.size(); ++c)
        sum += of_unknown[c] * y[columns[c]];
      by[map.begin + i] = sum;
    }
  }
  for (std::size_t s = 0; s < open_.size(); ++s)
    by[problem_->shared_begin() + open_[s]] = y[s];
}

void Reduction::row_of(int unknown, std::span<double> row) const {
  std::fill(row.begin(), row.end(), 0.0);
  const int shared = unknown - problem_->shared_begin();
  if (shared >= 0) {
    if (place_[shared] >= 0) row[place_[shared]] = 1;
    return;
  }
  const int block = block_of_unknown_[unknown];
  const auto columns = layout_.block_columns(block);
  const double *of_unknown = maps_[block].map.data() + (unknown - maps_[block].begin) * columns.size();
  for (std::size_t c = 0; c < columns.size(); ++c)
    row[columns[c]] = of_unknown[c];
}

void Reduction::move(std::span<const double> y) {
  wide_.resize(point_.size());
  displacement(y, wide_);
  for (std::size_t i = 0; i < point_.size(); ++i)
    point_[i] += wide_[i];
  for (int i = 0; i < left_.size(); ++i) {
    if (fate_[i] == Fate::fixes) continue;
    const RowView row = left_.view(i);
    for (std::size_t k = 0; k < row.columns.size(); ++k)
      if (place_[row.columns[k]] >= 0) left_.rest[i] -= row.values[k] * y[place_[row.columns[k]]];
  }
}

void Reduction::give(const RowName &name, double multiplier, std::span<double> gradient, Multipliers &into) const {
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
  if (multiplier == 0) return;
  for (const Term &term : rows_of(*problem_, name).row(name.row))
    gradient[term.column] -= multiplier * term.value;
}

/// Adds a left row times its multiplier to what is known of the shared unknowns' gradient, or takes it away again.
void Reduction::settle_left(int left, double multiplier, double sign) {
  const RowView row = left_.view(left);
  for (std::size_t k = 0; k < row.columns.size(); ++k)
    shared_multiplied_[row.columns[k]] += sign * multiplier * row.values[k];
}

/// From the last stage to the first. Within one: the rows that fix unknowns, the last first, each from the gradient
/// along what moves with its unknown, less what the left rows whose multipliers are known already give there; then the
/// blocks, whose rows' multipliers follow from the gradient on the unknowns that were eliminated.
void Reduction::multipliers(std::span<const double> of_held, std::span<double> gradient, Multipliers &into) {
  left_multiplier_.assign(left_.size(), 0.0);
  shared_multiplied_.assign(place_.size(), 0.0);
  for (int i = 0, held = 0; i < left_.size(); ++i) {
    if (fate_[i] == Fate::fixes) continue;
    left_multiplier_[i] = of_held[held++];
    settle_left(i, left_multiplier_[i], 1);
  }
  for (int s = stages_used_ - 1; s >= 0; --s) {
    const Stage &stage = stages_[s];
    for (int f = stage.end_fix - 1; f >= stage.first_fix; --f) {
      const Fix &made = fixes_[f];
      double along = -shared_multiplied_[made.shared];
      for (int t = made.first_term; t < made.end_term; ++t)
        along += fix_terms_[t].value * gradient[fix_terms_[t].column];
      left_multiplier_[made.left] = along / made.value;
      settle_left(made.left, left_multiplier_[made.left], 1);
    }
    for (int i = stage.first_left; i < stage.end_left; ++i)
      settle_left(i, left_multiplier_[i], -1);
    for (int b = stage.first_block; b < stage.end_block; ++b) {
      const StageBlock &own = stage_blocks_[b];
      const BlockMap &map = maps_[own.block];
      const PivotedQr &qr = own.qr;
      right_.assign(qr.rows, 0.0);
      for (int k = 0; k < qr.rank; ++k) {
        for (int i = 0; i < map.size; ++i)
          right_[k] += own.entry[static_cast<std::size_t>(i) * qr.columns + qr.pivots[k]] * gradient[map.begin + i];
        for (int i = 0; i < k; ++i)
          right_[k] -= qr.column(k)[i] * right_[i];
        right_[k] /= qr.column(k)[k];
      }
      for (int i = qr.rank; i < qr.rows; ++i)
        right_[i] = left_multiplier_[own.first_left + i - qr.rank];
      for (int k = qr.rank - 1; k >= 0; --k)
        qr.reflect(k, right_.data());
      for (int i = 0; i < qr.rows; ++i)
        give(stage.rows[own.first_row + i], own.shrink[i] * right_[i], gradient, into);
    }
    const int shared_rows = stage.end_left - stage.first_shared_left;
    const int first = static_cast<int>(stage.rows.size()) - shared_rows;
    for (int i = 0; i < shared_rows; ++i)
      give(stage.rows[first + i], left_multiplier_[stage.first_shared_left + i], gradient, into);
  }
}

} // namespace gatherwright::optimum
