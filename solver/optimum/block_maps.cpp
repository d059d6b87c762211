// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/block_maps.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright::optimum {

int BlockMap::column_of(int shared) const {
  const auto at = std::lower_bound(touched.begin(), touched.end(), shared);
  return at != touched.end() && *at == shared ? locals + static_cast<int>(at - touched.begin()) : -1;
}

int BlockMap::local_of(int i) const {
  const double *of_unknown = row(i);
  int local = -1;
  for (int c = 0; c < width(); ++c) {
    if (of_unknown[c] == 0) continue;
    if (local >= 0 || c >= locals || of_unknown[c] != 1) return -1;
    local = c;
  }
  return local;
}

bool BlockMaps::begin(const Problem &problem, const WorkCounter &count) {
  maps_.resize(problem.blocks());
  if (maps_.empty()) return true;
  block_of_unknown_.assign(problem.unknowns, -1);
  for (int j = 0, first = 0; j < problem.blocks(); ++j) {
    maps_[j].begin = first;
    maps_[j].size = maps_[j].locals = problem.block_ends[j] - first;
    std::fill(block_of_unknown_.begin() + first, block_of_unknown_.begin() + problem.block_ends[j], j);
    first = problem.block_ends[j];
    maps_[j].touched.clear();
  }
  for (const Rows *rows : {&problem.equal, &problem.at_least, &problem.limits})
    find_touched(*rows, problem.shared_begin());
  for (const Rows &rows : problem.wishes)
    find_touched(rows, problem.shared_begin());
  std::int64_t in_maps = 0;
  for (BlockMap &map : maps_) {
    std::sort(map.touched.begin(), map.touched.end());
    map.touched.erase(std::unique(map.touched.begin(), map.touched.end()), map.touched.end());
    in_maps += static_cast<std::int64_t>(map.size) * map.width();
    if (in_maps > most_in_maps) {
      count.lack(Work::Bound::maps);
      return false;
    }
    map.map.assign(static_cast<std::size_t>(map.size) * map.width(), 0.0);
    for (int i = 0; i < map.size; ++i)
      map.map[static_cast<std::size_t>(i) * map.width() + i] = 1;
    map.most.assign(map.size, 1.0);
  }
  count.add(in_maps);
  return true;
}

void BlockMaps::find_touched(const Rows &rows, int shared_begin) {
  for (int i = 0; i < rows.size(); ++i) {
    const int block = block_of(rows.row(i));
    if (block < 0) continue;
    for (const Term &term : rows.row(i))
      if (term.column >= shared_begin) maps_[block].touched.push_back(term.column - shared_begin);
  }
}

int BlockMaps::block_of(std::span<const Term> row) const {
  if (maps_.empty()) return -1;
  for (const Term &term : row)
    if (block_of_unknown_[term.column] >= 0) return block_of_unknown_[term.column];
  return -1;
}

/// t_a = -R11^-1 (R12 t_b + border f); what the bounds give stands in the point, not in the map.
void BlockMaps::substitute(int block, const Echelon &rows, std::span<const BlockMove> moves,
                           std::span<const double> border, const WorkCounter &count) {
  BlockMap &map = maps_[block];
  const int touched = static_cast<int>(map.touched.size());
  const int rank = rows.rank();
  const std::vector<int> &pivots = rows.pivots();
  const int left = map.locals - rank;
  const int new_width = left + touched;
  // Columns of R11^-1 [R12, border].
  solved_.resize(static_cast<std::size_t>(rank) * new_width);
  const auto column = [&](int c) { return solved_.data() + static_cast<std::size_t>(c) * rank; };
  rows.free_columns(solved_.data());
  for (int c = 0; c < touched; ++c)
    std::copy_n(border.data() + static_cast<std::size_t>(c) * rows.rows(), rank, column(left + c));
  for (int c = 0; c < new_width; ++c)
    rows.solve(column(c));
  next_.resize(static_cast<std::size_t>(map.size) * new_width);
  count.add(new_width * (2 * map.size + static_cast<std::int64_t>(moves.size()) + rows.work()));
  auto move = moves.begin();
  for (int i = 0; i < map.size; ++i) {
    const double *before = map.row(i);
    double *after = next_.data() + static_cast<std::size_t>(i) * new_width;
    for (int c = 0; c < left; ++c)
      after[c] = before[pivots[rank + c]];
    for (int c = 0; c < touched; ++c)
      after[left + c] = before[map.locals + c];
    for (; move != moves.end() && move->unknown == map.begin + i; ++move)
      for (int c = 0; c < new_width; ++c)
        after[c] -= move->along * column(c)[move->place];
    for (int c = 0; c < new_width; ++c)
      map.most[i] = std::max(map.most[i], std::abs(after[c]));
  }
  map.map.assign(next_.begin(), next_.end());
  map.locals = left;
}

void BlockMaps::close(const OpenUnknowns &open) {
  for (BlockMap &map : maps_) {
    const int width = map.width();
    const auto is_fixed = [&](int s) { return open.is_fixed(s); };
    if (std::none_of(map.touched.begin(), map.touched.end(), is_fixed)) continue;
    double *to = map.map.data();
    for (int i = 0; i < map.size; ++i)
      for (int c = 0; c < width; ++c)
        if (c < map.locals || !is_fixed(map.touched[c - map.locals]))
          *to++ = map.map[static_cast<std::size_t>(i) * width + c];
    map.touched.erase(std::remove_if(map.touched.begin(), map.touched.end(), is_fixed), map.touched.end());
    map.map.resize(static_cast<std::size_t>(map.size) * map.width());
  }
}

} // namespace gatherwright::optimum
