// SPDX-License-Identifier: GPL-3.0-or-later
#include "optimum/parts.hpp"

#include <numeric>
#include <utility>

namespace gatherwright::optimum {

namespace {

/// Blocks and shared unknowns, united by the rows that they meet in.
class Unions {
public:
  explicit Unions(const Problem &problem)
      : blocks_(problem.blocks()), first_shared_(problem.shared_begin()), block_of_(first_shared_),
        parent_(blocks_ + problem.unknowns - first_shared_) {
    for (int j = 0, c = 0; j < blocks_; ++j)
      for (; c < problem.block_ends[j]; ++c)
        block_of_[c] = j;
    std::iota(parent_.begin(), parent_.end(), 0);
    unite(problem.equal);
    unite(problem.at_least);
    unite(problem.limits);
    for (const Rows &wishes : problem.wishes)
      unite(wishes);
  }

  int of_unknown(int column) {
    return root(column < first_shared_ ? block_of_[column] : blocks_ + column - first_shared_);
  }

private:
  int root(int node) {
    while (parent_[node] != node)
      node = parent_[node] = parent_[parent_[node]];
    return node;
  }

  void unite(const Rows &rows) {
    for (int i = 0; i < rows.size(); ++i)
      for (const Term &term : rows.row(i))
        parent_[of_unknown(term.column)] = of_unknown(rows.row(i).front().column);
  }

  int blocks_;
  int first_shared_;
  std::vector<int> block_of_; ///< of each unknown that is not shared
  std::vector<int> parent_;
};

} // namespace

std::vector<Part> parts_with_shared(const Problem &problem) {
  Unions unions(problem);
  const int shared_begin = problem.shared_begin();
  std::vector<Part> parts;
  std::vector<int> part_of_root(problem.blocks() + problem.unknowns - shared_begin, -1);
  for (int c = shared_begin; c < problem.unknowns; ++c) {
    int &part = part_of_root[unions.of_unknown(c)];
    if (part >= 0) continue;
    part = static_cast<int>(parts.size());
    parts.emplace_back();
  }
  const auto part_of = [&](int column) { return part_of_root[unions.of_unknown(column)]; };
  std::vector<int> place(problem.unknowns, -1); // in its part
  const auto take = [&](int column) {
    Part &part = parts[part_of(column)];
    place[column] = part.problem.unknowns++;
    part.unknowns.push_back(column);
  };
  for (int j = 0, first = 0; j < problem.blocks(); first = problem.block_ends[j++]) {
    if (first == problem.block_ends[j] || part_of(first) < 0) continue;
    for (int c = first; c < problem.block_ends[j]; ++c)
      take(c);
    Problem &own = parts[part_of(first)].problem;
    own.block_ends.push_back(own.unknowns);
  }
  for (int c = shared_begin; c < problem.unknowns; ++c)
    take(c);
  std::vector<Term> row;
  const auto copy = [&](const Rows &rows, auto own_rows) {
    for (int i = 0; i < rows.size(); ++i) {
      if (rows.row(i).empty() || part_of(rows.row(i).front().column) < 0) continue;
      row.clear();
      for (const Term &term : rows.row(i))
        row.push_back({place[term.column], term.value});
      own_rows(parts[part_of(rows.row(i).front().column)], i).add(row, rows.bound[i]);
    }
  };
  copy(problem.equal, [](Part &part, int) -> Rows & { return part.problem.equal; });
  copy(problem.at_least, [](Part &part, int) -> Rows & { return part.problem.at_least; });
  copy(problem.limits, [](Part &part, int i) -> Rows & {
    part.limits.push_back(i);
    return part.problem.limits;
  });
  for (int level = 0; level < wish_levels; ++level)
    copy(problem.wishes[level], [level](Part &part, int) -> Rows & { return part.problem.wishes[level]; });
  return parts;
}

} // namespace gatherwright::optimum
