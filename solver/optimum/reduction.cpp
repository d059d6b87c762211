// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/reduction.hpp"

#include <algorithm>

namespace gatherwright::optimum {

bool Reduction::begin(const Problem &problem) {
  problem_ = &problem;
  nearly_parallel_ = false;
  held_entries_ = 0;
  stages_.clear();
  blocks_.begin();
  left_.begin(problem.unknowns - problem.shared_begin());
  return freedom_.begin(problem, count_);
}

void Reduction::begin(const Problem &problem, const Reduction &held) {
  problem_ = &problem;
  nearly_parallel_ = held.nearly_parallel_;
  held_entries_ = held.held_entries_;
  freedom_.begin(held.freedom_);
  left_.begin(held.left_);
  stages_.assign(held.stages_);
  blocks_.begin(held.blocks_);
  count_.add(problem.unknowns + static_cast<std::int64_t>(size()));
  for (int s = 0; s < stages_.size(); ++s) {
    const Stage &stage = stages_[s];
    rests_.clear();
    for (const RowName &name : stage.rows) {
      const Rows &of = rows_of(problem, name);
      double rest = of.bound[name.row];
      for (const Term &term : of.row(name.row))
        rest -= term.value * freedom_.point()[term.column];
      rests_.push_back(rest);
    }
    meet_bounds(stage, rests_);
    left_.move_fixed(stage.first_fix, stage.end_fix, freedom_, count_);
  }
}

std::size_t Reduction::size() const {
  std::size_t numbers = left_.terms();
  for (const BlockMap &map : freedom_.maps().all())
    numbers += map.map.size();
  return numbers;
}

/// Block by block, those without a block last.
void Reduction::order(std::span<const RowName> rows, std::vector<RowName> &ordered) {
  ordered.assign(rows.begin(), rows.end());
  const BlockMaps &maps = freedom_.maps();
  if (maps.empty()) return;
  order_.clear();
  for (int i = 0; i < static_cast<int>(rows.size()); ++i) {
    const int block = maps.block_of(rows_of(*problem_, rows[i]).row(rows[i].row));
    order_.emplace_back(block < 0 ? maps.size() : block, i);
  }
  std::sort(order_.begin(), order_.end());
  for (std::size_t i = 0; i < order_.size(); ++i)
    ordered[i] = rows[order_[i].second];
}

bool Reduction::hold(std::span<const RowName> rows, Hold at) {
  if (rows.empty()) return true;
  Stage &stage = stages_.add();
  order(rows, stage.rows);
  reduced_.clear();
  rests_.clear();
  for (const RowName &name : stage.rows) {
    const Rows &of = rows_of(*problem_, name);
    nearly_parallel_ |= freedom_.append(of.row(name.row), of.bound[name.row], reduced_, count_);
    rests_.push_back(reduced_[reduced_.size() - 1].rest);
  }
  stage.first_block = blocks_.size();
  stage.first_left = left_.size();
  int first = 0;
  while (first < reduced_.size() && reduced_[first].block >= 0) {
    int end = first;
    while (end < reduced_.size() && reduced_[end].block == reduced_[first].block)
      ++end;
    if (!hold_block(reduced_[first].block, first, end)) return false;
    first = end;
  }
  stage.end_block = blocks_.size();
  stage.first_shared_left = left_.size();
  keep_shared_rows(first);
  stage.end_left = left_.size();
  stage.first_fix = left_.fixes();
  const std::span<const int> fixed = left_.fix_single_ones(freedom_, count_);
  stage.end_fix = left_.fixes();
  if (!fixed.empty()) freedom_.fix(fixed);
  if (!fixed.empty() || stage.end_block > stage.first_block) freedom_.lay_out();
  if (at == Hold::at_bound) meet_bounds(stage, rests_);
  left_.move_fixed(stage.first_fix, stage.end_fix, freedom_, count_);
  return true;
}

void Reduction::keep_shared_rows(int first_row) {
  for (int i = first_row; i < reduced_.size(); ++i) {
    const std::span<const Term> terms = reduced_.view(i).terms;
    ReducedRows::Pen pen = left_.pen(terms.size());
    for (const Term &term : terms)
      pen.put(freedom_.open().at(term.column), term.value);
    left_.take(pen, reduced_[i].norm);
  }
}

/// False: it would be too much work, or take too much room.
bool Reduction::hold_block(int block, int first_row, int end_row) {
  const BlockMap &map = freedom_.maps()[block];
  const int rows = end_row - first_row;
  const std::int64_t entries = static_cast<std::int64_t>(rows) * map.width();
  count_.add(entries);
  held_entries_ += entries;
  if (held_entries_ > most_in_maps) count_.lack(Work::Bound::maps);
  if (held_entries_ > most_in_maps || count_.spent()) return false;
  BlockElimination &own = blocks_.add();
  if (!own.eliminate(reduced_, first_row, end_row, map, layout().block_columns(block), border_, room_, count_))
    return false;
  nearly_parallel_ |= own.echelon().is_nearly_parallel();
  own.leave(map.touched, border_, left_);
  freedom_.substitute(block, own.echelon(), own.moves(), border_, count_);
  return true;
}

/// Moves the point to where the rows of a stage are at their bounds, which they miss by `rests`; what is left of them
/// on shared unknowns still misses its own.
void Reduction::meet_bounds(const Stage &stage, std::span<const double> rests) {
  for (const BlockElimination &own : blocks_.from_to(stage.first_block, stage.end_block)) {
    count_.add(own.work());
    own.meet_bounds(rests, freedom_, left_, room_);
  }
  for (int i = 0; i < stage.shared_rows(); ++i)
    left_.set_rest(stage.first_shared_left + i, rests[stage.first_shared_row() + i]);
}

void Reduction::move(std::span<const double> y) {
  freedom_.move(y, count_);
  left_.move(y, freedom_.open());
}

void Reduction::move_to(std::span<const double> x) {
  towards_.assign(layout().size(), 0.0);
  freedom_.towards(x, towards_);
  move(towards_);
}

} // namespace gatherwright::optimum
