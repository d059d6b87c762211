// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/reduction.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

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

/// R11^-1 times a vector, in place.
void solve_pivots(const PivotedQr &qr, double *vector) {
  for (int i = qr.rank - 1; i >= 0; --i) {
    for (int k = i + 1; k < qr.rank; ++k)
      vector[i] -= qr.column(k)[i] * vector[k];
    vector[i] /= qr.column(i)[i];
  }
}

} // namespace

bool Reduction::begin(const Problem &problem) {
  problem_ = &problem;
  nearly_parallel_ = false;
  const int shared_begin = problem.shared_begin();
  point_.assign(problem.unknowns, 0.0);
  held_entries_ = 0;
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
  count_.add(problem.unknowns);
  std::int64_t in_maps = 0;
  for (BlockMap &map : maps_) {
    std::sort(map.touched.begin(), map.touched.end());
    map.touched.erase(std::unique(map.touched.begin(), map.touched.end()), map.touched.end());
    in_maps += static_cast<std::int64_t>(map.size) * map.width();
    if (in_maps > most_in_maps) {
      count_.lack(Work::Bound::maps);
      return false;
    }
    map.map.assign(static_cast<std::size_t>(map.size) * map.width(), 0.0);
    for (int i = 0; i < map.size; ++i)
      map.map[static_cast<std::size_t>(i) * map.width() + i] = 1;
    map.most.assign(map.size, 1.0);
  }
  count_.add(in_maps);
  lay_out();
  return true;
}

void Reduction::begin(const Problem &problem, const Reduction &held) {
  problem_ = &problem;
  nearly_parallel_ = held.nearly_parallel_;
  point_.assign(problem.unknowns, 0.0);
  block_of_unknown_ = held.block_of_unknown_;
  maps_ = held.maps_;
  place_ = held.place_;
  open_ = held.open_;
  layout_ = held.layout_;
  left_ = held.left_;
  fate_ = held.fate_;
  fixes_ = held.fixes_;
  fix_terms_ = held.fix_terms_;
  held_entries_ = held.held_entries_;
  stages_used_ = held.stages_used_;
  stage_blocks_used_ = held.stage_blocks_used_;
  count_.add(problem.unknowns + static_cast<std::int64_t>(left_.all_terms().size()));
  for (const BlockMap &map : maps_)
    count_.add(static_cast<std::int64_t>(map.map.size()));
  if (stages_.size() < held.stages_.size()) stages_.resize(held.stages_.size());
  if (stage_blocks_.size() < held.stage_blocks_.size()) stage_blocks_.resize(held.stage_blocks_.size());
  std::copy_n(held.stages_.begin(), stages_used_, stages_.begin());
  std::copy_n(held.stage_blocks_.begin(), stage_blocks_used_, stage_blocks_.begin());
  for (int s = 0; s < stages_used_; ++s) {
    rests_.clear();
    for (const RowName &name : stages_[s].rows) {
      const Rows &of = rows_of(problem, name);
      double rest = of.bound[name.row];
      for (const Term &term : of.row(name.row))
        rest -= term.value * point_[term.column];
      rests_.push_back(rest);
    }
    move_to_bounds(stages_[s]);
    move_fixed(stages_[s]);
  }
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

/// Rows of shared unknowns alone, to where room has been made for them.
inline void Reduction::append_shared(std::span<const Term> row, double bound, ReducedRows::Pen &pen) const {
  const int *place = place_.data() - problem_->shared_begin();
  const double *point = point_.data();
  if (row.size() == 1) {
    const auto &[column, value] = row[0];
    if (place[column] >= 0) pen.put(place[column], value);
    pen.end_row(-1, bound - value * point[column], std::abs(value));
    return;
  }
  double most = 0;
  double square = 0;
  for (const auto &[column, value] : row) {
    bound -= value * point[column];
    square += value * value;
    if (place[column] >= 0) most = std::max(most, std::abs(value));
  }
  const double length = std::sqrt(square);
  nearly_parallel_ = nearly_parallel_ || is_nearly_parallel(most, length);
  if (most > dependent_share * length)
    for (const auto &[column, value] : row)
      if (place[column] >= 0) pen.put(place[column], value);
  pen.end_row(-1, bound, length);
}

void Reduction::append(std::span<const Term> row, double bound, ReducedRows &into) {
  const int block = block_of(row);
  if (block >= 0) {
    append_of_block(row, block, bound, into);
    return;
  }
  ReducedRows::Pen pen = into.pen(1, row.size());
  append_shared(row, bound, pen);
  into.take(pen);
}

void Reduction::append(const Rows &rows, ReducedRows &into) {
  if (!maps_.empty()) {
    for (int i = 0; i < rows.size(); ++i)
      append(rows.row(i), rows.bound[i], into);
    return;
  }
  ReducedRows::Pen pen = into.pen(rows.size(), rows.terms.size());
  for (int i = 0; i < rows.size(); ++i)
    append_shared(rows.row(i), rows.bound[i], pen);
  into.take(pen);
}

void Reduction::append_open(const Rows &rows, std::span<const int> held_by, ReducedRows &into,
                            std::vector<int> &which) {
  const std::size_t before = which.size();
  for (int i = 0; i < rows.size(); ++i)
    if (held_by[i] < 0) which.push_back(i);
  const std::span<const int> open = std::span(which).subspan(before);
  count_.add(rows.size());
  if (!maps_.empty()) {
    for (const int i : open)
      append(rows.row(i), rows.bound[i], into);
    return;
  }
  ReducedRows::Pen pen = into.pen(static_cast<int>(open.size()), rows.terms.size());
  for (const int i : open)
    append_shared(rows.row(i), rows.bound[i], pen);
  into.take(pen);
}

void Reduction::append_of_block(std::span<const Term> row, int block, double bound, ReducedRows &into) {
  const int shared_begin = problem_->shared_begin();
  const BlockMap &map = maps_[block];
  const int width = map.width();
  wide_.assign(width, 0.0);
  count_.add(static_cast<std::int64_t>(row.size() + 3) * width);
  double numbers = 0;
  for (const auto &[column, value] : row) {
    bound -= value * point_[column];
    if (column >= shared_begin) {
      const auto at = std::lower_bound(map.touched.begin(), map.touched.end(), column - shared_begin);
      if (at != map.touched.end() && *at == column - shared_begin)
        wide_[map.locals + (at - map.touched.begin())] += value;
      numbers += std::abs(value);
      continue;
    }
    const double *of_unknown = map.map.data() + static_cast<std::size_t>(column - map.begin) * width;
    for (int c = 0; c < width; ++c)
      wide_[c] += value * of_unknown[c];
    numbers += std::abs(value) * map.most[column - map.begin];
  }
  const auto columns = layout_.block_columns(block);
  ReducedRows::Pen pen = into.pen(1, width);
  double most = 0;
  for (int c = 0; c < width; ++c)
    most = std::max(most, std::abs(wide_[c]));
  nearly_parallel_ = nearly_parallel_ || is_nearly_parallel(most, numbers);
  if (most > dependent_share * numbers)
    for (int c = 0; c < width; ++c)
      if (std::abs(wide_[c]) > cancelled * numbers) pen.put(columns[c], wide_[c]);
  pen.end_row(block, bound, length_of(row));
  into.take(pen);
}

int Reduction::append_held(ReducedRows &into) const {
  int held = 0;
  for (int i = 0; i < left_.size(); ++i) {
    if (fate_[i] == Fate::fixes) continue;
    const std::span<const Term> terms = left_.view(i).terms;
    ReducedRows::Pen pen = into.pen(1, terms.size());
    for (const Term &term : terms)
      if (place_[term.column] >= 0) pen.put(place_[term.column], term.value);
    pen.end_row(-1, left_[i].rest, left_[i].norm);
    into.take(pen);
    ++held;
  }
  return held;
}

/// Block by block, those without a block last.
void Reduction::order(std::span<const RowName> rows, std::vector<RowName> &ordered) {
  ordered.assign(rows.begin(), rows.end());
  if (maps_.empty()) return;
  const int last = static_cast<int>(maps_.size());
  order_.clear();
  for (int i = 0; i < static_cast<int>(rows.size()); ++i) {
    const int block = block_of(rows_of(*problem_, rows[i]).row(rows[i].row));
    order_.emplace_back(block < 0 ? last : block, i);
  }
  std::sort(order_.begin(), order_.end());
  for (std::size_t i = 0; i < order_.size(); ++i)
    ordered[i] = rows[order_[i].second];
}

bool Reduction::hold(std::span<const RowName> rows, Hold at) {
  if (rows.empty()) return true;
  if (stages_used_ == static_cast<int>(stages_.size())) stages_.emplace_back();
  Stage &stage = stages_[stages_used_++];
  order(rows, stage.rows);
  reduced_.clear();
  rests_.clear();
  for (const RowName &name : stage.rows) {
    const Rows &of = rows_of(*problem_, name);
    append(of.row(name.row), of.bound[name.row], reduced_);
    rests_.push_back(reduced_[reduced_.size() - 1].rest);
  }
  stage.first_block = stage_blocks_used_;
  stage.first_left = left_.size();
  int first = 0;
  while (first < reduced_.size() && reduced_[first].block >= 0) {
    int end = first;
    while (end < reduced_.size() && reduced_[end].block == reduced_[first].block)
      ++end;
    if (!hold_block(reduced_[first].block, first, end)) return false;
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
  if (stage.end_fix > stage.first_fix || stage.end_block > stage.first_block) lay_out();
  if (at == Hold::at_bound) move_to_bounds(stage);
  move_fixed(stage);
  return true;
}

void Reduction::keep_shared_rows(int first_row) {
  for (int i = first_row; i < reduced_.size(); ++i) {
    const std::span<const Term> terms = reduced_.view(i).terms;
    ReducedRows::Pen pen = left_.pen(1, terms.size());
    for (const Term &term : terms)
      pen.put(open_[term.column], term.value);
    pen.end_row(-1, 0, reduced_[i].norm);
    left_.take(pen);
    fate_.push_back(Fate::kept);
  }
}

/// False: it would be too much work, or take too much room.
bool Reduction::hold_block(int block, int first_row, int end_row) {
  const BlockMap &map = maps_[block];
  const int touched = static_cast<int>(map.touched.size());
  const int rows = end_row - first_row;
  const std::int64_t entries = static_cast<std::int64_t>(rows) * (map.locals + touched);
  count_.add(3 * entries * std::min(rows, map.locals));
  held_entries_ += entries;
  if (held_entries_ > most_in_maps) count_.lack(Work::Bound::maps);
  if (held_entries_ > most_in_maps || count_.spent()) return false;
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
  const auto columns = layout_.block_columns(block);
  for (int i = 0; i < rows; ++i) {
    const double shrink = 1 / reduced_[first_row + i].norm;
    own.shrink[i] = shrink;
    int c = 0;
    for (const Term &term : reduced_.view(first_row + i).terms) {
      while (columns[c] != term.column)
        ++c;
      double *column =
          c < map.locals ? own.qr.column(c) : border_.data() + static_cast<std::size_t>(c - map.locals) * rows;
      column[i] = shrink * term.value;
    }
  }
  own.entry.resize(static_cast<std::size_t>(map.size) * map.locals);
  for (int i = 0; i < map.size; ++i)
    std::copy_n(map.map.data() + static_cast<std::size_t>(i) * map.width(), map.locals,
                own.entry.data() + static_cast<std::size_t>(i) * map.locals);
  own.qr.factor(dependent_share);
  for (int k = 0; k < own.qr.rank; ++k)
    nearly_parallel_ = nearly_parallel_ || is_nearly_parallel(std::abs(own.qr.column(k)[k]), 1);
  for (int k = 0; k < own.qr.rank; ++k)
    for (int c = 0; c < touched; ++c)
      own.qr.reflect(k, border_.data() + static_cast<std::size_t>(c) * rows);
  for (int i = own.qr.rank; i < rows; ++i) {
    ReducedRows::Pen pen = left_.pen(1, touched);
    for (int c = 0; c < touched; ++c) {
      const double value = border_[static_cast<std::size_t>(c) * rows + i];
      // What is left of a row that depends on others is rounding: it must not be taken for a condition on the shared
      // unknowns.
      if (std::abs(value) > dependent_share) pen.put(map.touched[c], value);
    }
    pen.end_row(-1, 0, 1);
    left_.take(pen);
    fate_.push_back(Fate::kept);
  }
  substitute(own);
  return true;
}

/// Puts t_a = -R11^-1 (R12 t_b + border f) into the block's map; what the bounds give is put into the point later.
void Reduction::substitute(const StageBlock &own) {
  BlockMap &map = maps_[own.block];
  const PivotedQr &qr = own.qr;
  const int touched = static_cast<int>(map.touched.size());
  const int rank = qr.rank;
  const int left = map.locals - rank;
  const int width = map.width();
  const int new_width = left + touched;
  // Columns of R11^-1 [R12, border].
  solved_.resize(static_cast<std::size_t>(rank) * new_width);
  const auto column = [&](int c) { return solved_.data() + static_cast<std::size_t>(c) * rank; };
  for (int c = 0; c < left; ++c)
    std::copy_n(qr.column(rank + c), rank, column(c));
  for (int c = 0; c < touched; ++c)
    std::copy_n(border_.data() + static_cast<std::size_t>(c) * qr.rows, rank, column(left + c));
  for (int c = 0; c < new_width; ++c)
    solve_pivots(qr, column(c));
  next_.resize(static_cast<std::size_t>(map.size) * new_width);
  count_.add(static_cast<std::int64_t>(new_width) * (map.size + rank) * (rank + 2));
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
    }
    for (int c = 0; c < new_width; ++c)
      map.most[i] = std::max(map.most[i], std::abs(after[c]));
  }
  map.map.assign(next_.begin(), next_.end());
  map.locals = left;
}

/// The place of a kept row's one term on an open unknown; -1 where it has none or several.
int Reduction::only_open_term(int left) const {
  int only = -1;
  for (int k = left_[left].first; k < left_[left].end; ++k) {
    const Term &term = left_.terms()[k];
    if (place_[term.column] < 0 || std::abs(term.value) <= dependent_share * left_[left].norm) continue;
    if (only >= 0) return -1;
    only = k;
  }
  return only;
}

void Reduction::fix_single_ones() {
  bool any = false;
  for (bool again = true; again;) {
    again = false;
    count_.add(left_.size());
    for (int i = 0; i < left_.size(); ++i) {
      if (fate_[i] == Fate::fixes) continue;
      const int term = only_open_term(i);
      if (term < 0) continue;
      if (!any) find_touching();
      any = true;
      fix(i, term);
      again = true;
    }
  }
}

/// Which blocks touch each shared unknown.
void Reduction::find_touching() {
  touching_start_.assign(place_.size() + 1, 0);
  for (const BlockMap &map : maps_)
    for (const int s : map.touched)
      ++touching_start_[s + 1];
  std::partial_sum(touching_start_.begin(), touching_start_.end(), touching_start_.begin());
  touching_.resize(touching_start_.back());
  next_place_.assign(touching_start_.begin(), touching_start_.end() - 1);
  for (std::size_t j = 0; j < maps_.size(); ++j)
    for (const int s : maps_[j].touched)
      touching_[next_place_[s]++] = static_cast<int>(j);
}

/// Where each shared unknown stands in the rows left over.
void Reduction::find_left_of_shared() {
  left_start_.assign(place_.size() + 1, 0);
  for (const Term &term : left_.all_terms())
    ++left_start_[term.column + 1];
  std::partial_sum(left_start_.begin(), left_start_.end(), left_start_.begin());
  left_of_.resize(left_start_.back());
  next_place_.assign(left_start_.begin(), left_start_.end() - 1);
  for (int i = 0; i < left_.size(); ++i)
    for (int k = left_[i].first; k < left_[i].end; ++k)
      left_of_[next_place_[left_.terms()[k].column]++] = LeftTerm{i, left_.terms()[k].value};
  count_.add(static_cast<std::int64_t>(left_of_.size()));
}

void Reduction::fix(int left, int term) {
  const int shared_begin = problem_->shared_begin();
  const int shared = left_.terms()[term].column;
  Fix &made = fixes_.emplace_back();
  made = {left, shared, left_.terms()[term].value, static_cast<int>(fix_terms_.size()), 0};
  fix_terms_.push_back({shared_begin + shared, 1.0});
  for (int t = touching_start_[shared]; t < touching_start_[shared + 1]; ++t) {
    const BlockMap &map = maps_[touching_[t]];
    const auto at = std::lower_bound(map.touched.begin(), map.touched.end(), shared);
    count_.add(map.size);
    const int c = map.locals + static_cast<int>(at - map.touched.begin());
    for (int i = 0; i < map.size; ++i) {
      const double along = map.map[static_cast<std::size_t>(i) * map.width() + c];
      if (along != 0) fix_terms_.push_back({map.begin + i, along});
    }
  }
  made.end_term = static_cast<int>(fix_terms_.size());
  fate_[left] = Fate::fixes;
  place_[shared] = -1;
}

/// Moves the point to where the rows of a stage are at their bounds, which they miss by `rests_`; what is left of them
/// on shared unknowns still misses its own.
void Reduction::move_to_bounds(const Stage &stage) {
  for (int b = stage.first_block; b < stage.end_block; ++b) {
    const StageBlock &own = stage_blocks_[b];
    const BlockMap &map = maps_[own.block];
    const PivotedQr &qr = own.qr;
    bounds_.resize(qr.rows);
    count_.add(static_cast<std::int64_t>(qr.rows + map.size) * (qr.rank + 1));
    for (int i = 0; i < qr.rows; ++i)
      bounds_[i] = own.shrink[i] * rests_[own.first_row + i];
    for (int k = 0; k < qr.rank; ++k)
      qr.reflect(k, bounds_.data());
    for (int i = qr.rank; i < qr.rows; ++i)
      left_[own.first_left + i - qr.rank].rest = bounds_[i];
    solve_pivots(qr, bounds_.data());
    for (int i = 0; i < map.size; ++i) {
      const double *before = own.entry.data() + static_cast<std::size_t>(i) * qr.columns;
      for (int k = 0; k < qr.rank; ++k)
        if (const double basic = before[qr.pivots[k]]; basic != 0) point_[map.begin + i] += basic * bounds_[k];
    }
  }
  const int shared_rows = stage.end_left - stage.first_shared_left;
  for (int i = 0; i < shared_rows; ++i)
    left_[stage.first_shared_left + i].rest = rests_[stage.rows.size() - shared_rows + i];
}

/// Moves the shared unknowns that a stage's rows fix to where they fix them.
void Reduction::move_fixed(const Stage &stage) {
  if (stage.end_fix == stage.first_fix) return;
  find_left_of_shared();
  for (int f = stage.first_fix; f < stage.end_fix; ++f) {
    const Fix &made = fixes_[f];
    const double by = left_[made.left].rest / made.value;
    if (by == 0) continue;
    count_.add(made.end_term - made.first_term);
    for (int t = made.first_term; t < made.end_term; ++t)
      point_[fix_terms_[t].column] += by * fix_terms_[t].value;
    for (int k = left_start_[made.shared]; k < left_start_[made.shared + 1]; ++k)
      left_[left_of_[k].row].rest -= by * left_of_[k].value;
  }
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

/// Calls take(unknown, T y) for the unknowns of blocks.
template <class Take> void Reduction::for_each_local(std::span<const double> y, Take take) const {
  for (std::size_t j = 0; j < maps_.size(); ++j) {
    const BlockMap &map = maps_[j];
    const auto columns = layout_.block_columns(static_cast<int>(j));
    count_.add(static_cast<std::int64_t>(map.map.size()));
    for (int i = 0; i < map.size; ++i) {
      const double *of_unknown = map.map.data() + i * columns.size();
      double sum = 0;
      for (std::size_t c = 0; c < columns.size(); ++c)
        sum += of_unknown[c] * y[columns[c]];
      take(map.begin + i, sum);
    }
  }
}

void Reduction::displacement(std::span<const double> y, std::span<double> by) const {
  std::fill(by.begin(), by.end(), 0.0);
  for (std::size_t s = 0; s < open_.size(); ++s)
    by[problem_->shared_begin() + open_[s]] = y[s];
  for_each_local(y, [&](int unknown, double moved) { by[unknown] = moved; });
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
  const int shared_begin = problem_->shared_begin();
  for (std::size_t s = 0; s < open_.size(); ++s)
    point_[shared_begin + open_[s]] += y[s];
  for_each_local(y, [&](int unknown, double by) { point_[unknown] += by; });
  for (int i = 0; i < left_.size(); ++i) {
    if (fate_[i] == Fate::fixes) continue;
    for (const Term &term : left_.view(i).terms)
      if (place_[term.column] >= 0) left_[i].rest -= term.value * y[place_[term.column]];
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
  for (const Term &term : left_.view(left).terms)
    shared_multiplied_[term.column] += sign * multiplier * term.value;
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
    if (!fixes_.empty()) settle_left(i, left_multiplier_[i], 1);
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
    if (!fixes_.empty())
      for (int i = stage.first_left; i < stage.end_left; ++i)
        settle_left(i, left_multiplier_[i], -1);
    for (int b = stage.first_block; b < stage.end_block; ++b) {
      const StageBlock &own = stage_blocks_[b];
      const BlockMap &map = maps_[own.block];
      const PivotedQr &qr = own.qr;
      right_.assign(qr.rows, 0.0);
      count_.add(static_cast<std::int64_t>(qr.rows + map.size) * (qr.rank + 1));
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
