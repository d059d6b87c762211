// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/parts.hpp"

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

/// Deals a problem's unknowns and rows out to its parts.
class Deal {
public:
  explicit Deal(const Problem &problem)
      : problem_(problem), unions_(problem),
        part_of_root_(problem.blocks() + problem.unknowns - problem.shared_begin(), -1), place_(problem.unknowns, -1) {}

  std::vector<PartOfProblem> deal() {
    for (int c = problem_.shared_begin(); c < problem_.unknowns; ++c)
      if (int &part = part_of_root_[unions_.of_unknown(c)]; part < 0)
        part = static_cast<int>(parts_.size()), parts_.emplace_back();
    parts_.emplace_back();
    deal_unknowns();
    deal_rows(problem_.equal, [](PartOfProblem &part) { return std::pair(&part.problem.equal, &part.equal); });
    deal_rows(problem_.at_least, [](PartOfProblem &part) { return std::pair(&part.problem.at_least, &part.at_least); });
    deal_rows(problem_.limits, [](PartOfProblem &part) { return std::pair(&part.problem.limits, &part.limits); });
    for (int level = 0; level < wish_levels; ++level)
      deal_rows(problem_.wishes[level],
                [level](PartOfProblem &part) { return std::pair(&part.problem.wishes[level], &part.wishes[level]); });
    const PartOfProblem &rest = parts_.back();
    if (rest.unknowns.empty() && rest.equal.empty() && rest.at_least.empty()) parts_.pop_back();
    return std::move(parts_);
  }

private:
  PartOfProblem &part_of(int column) {
    const int part = part_of_root_[unions_.of_unknown(column)];
    return part < 0 ? parts_.back() : parts_[part];
  }

  void take(int column) {
    PartOfProblem &part = part_of(column);
    place_[column] = part.problem.unknowns++;
    part.unknowns.push_back(column);
  }

  void deal_unknowns() {
    for (int j = 0, first = 0; j < problem_.blocks(); first = problem_.block_ends[j++]) {
      if (first == problem_.block_ends[j]) continue;
      for (int c = first; c < problem_.block_ends[j]; ++c)
        take(c);
      Problem &own = part_of(first).problem;
      own.block_ends.push_back(own.unknowns);
    }
    for (int c = problem_.shared_begin(); c < problem_.unknowns; ++c)
      take(c);
  }

  template <class Own> void deal_rows(const Rows &rows, Own own) {
    for (int i = 0; i < rows.size(); ++i) {
      row_.clear();
      for (const Term &term : rows.row(i))
        row_.push_back({place_[term.column], term.value});
      const auto [to, origin] = own(row_.empty() ? parts_.back() : part_of(rows.row(i).front().column));
      to->add(row_, rows.bound[i]);
      origin->push_back(i);
    }
  }

  const Problem &problem_;
  Unions unions_;
  std::vector<int> part_of_root_; ///< -1: the last
  std::vector<int> place_;        ///< of each unknown in its part
  std::vector<PartOfProblem> parts_;
  std::vector<Term> row_;
};

void scatter(const std::vector<double> &from, const std::vector<int> &origin, std::vector<double> &to) {
  for (std::size_t i = 0; i < from.size(); ++i)
    to[origin[i]] = from[i];
}

void size_multipliers(const Problem &problem, Multipliers &into) {
  into.equal.assign(problem.equal.size(), 0.0);
  into.at_least.assign(problem.at_least.size(), 0.0);
  into.limits.assign(problem.limits.size(), 0.0);
  for (int level = 0; level < wish_levels; ++level)
    into.wishes[level].assign(problem.wishes[level].size(), 0.0);
}

} // namespace

std::vector<PartOfProblem> parts_of(const Problem &problem) {
  return Deal(problem).deal();
}

Solution nothing_solved(const Problem &problem) {
  Solution whole;
  whole.x.assign(problem.unknowns, 0.0);
  whole.loose.assign(problem.unknowns, 0);
  whole.violation.assign(problem.limits.size(), 0.0);
  for (Multipliers &multipliers : whole.levels)
    size_multipliers(problem, multipliers);
  whole.status = Status::optimal;
  return whole;
}

void put_together(const PartOfProblem &part, const Solution &found, Solution &whole) {
  scatter(found.x, part.unknowns, whole.x);
  for (std::size_t c = 0; c < found.loose.size(); ++c)
    whole.loose[part.unknowns[c]] = found.loose[c];
  scatter(found.violation, part.limits, whole.violation);
  for (std::size_t level = 0; level < whole.levels.size(); ++level) {
    scatter(found.levels[level].equal, part.equal, whole.levels[level].equal);
    scatter(found.levels[level].at_least, part.at_least, whole.levels[level].at_least);
    scatter(found.levels[level].limits, part.limits, whole.levels[level].limits);
    for (int earlier = 0; earlier < wish_levels; ++earlier)
      scatter(found.levels[level].wishes[earlier], part.wishes[earlier], whole.levels[level].wishes[earlier]);
  }
  if (found.status != Status::optimal) whole.status = found.status;
}

Multipliers contradiction_of_whole(const Problem &whole, const PartOfProblem &part, const Multipliers &contradiction) {
  Multipliers found;
  size_multipliers(whole, found);
  scatter(contradiction.equal, part.equal, found.equal);
  scatter(contradiction.at_least, part.at_least, found.at_least);
  return found;
}

} // namespace gatherwright::optimum
