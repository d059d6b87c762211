// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/level_constraints.hpp"

#include <algorithm>
#include <numeric>

namespace gatherwright::optimum {

namespace {

/// All of so many are open. They are ascending: where there are as many and the last is the last, they are as they
/// were.
void open_all(std::vector<int> &open, int count) {
  if (static_cast<int>(open.size()) == count && (count == 0 || open.back() == count - 1)) return;
  open.resize(count);
  std::iota(open.begin(), open.end(), 0);
}

} // namespace

void LevelConstraints::begin(const Problem &problem) {
  open_all(at_least_, problem.at_least.size());
  open_all(limits_, problem.limits.size());
}

/// Adds the rows that no level holds, and leaves out those that are closed.
void LevelConstraints::add_open(const Rows &rows, bool any_held, std::span<const int> held_by, bool point_holds,
                                Reduction &reduction, Magnitude &magnitude, std::vector<int> &open) {
  ReducedRows &into = constraints_.rows;
  const int first = into.size();
  if (any_held) std::erase_if(open, [&](int i) { return held_by[i] >= 0; });
  const bool all = static_cast<int>(open.size()) == rows.size();
  if (all)
    reduction.append(rows, into);
  else
    reduction.append(rows, open, into);
  magnitude.see(into.all().subspan(first));
  if (point_holds)
    for (int i = first; i < into.size(); ++i)
      into[i].rest = std::min(into[i].rest, 0.0);
  if (all && reduction.all_is_free()) return; // no row has lost its terms
  int kept = 0;
  for (std::size_t k = 0; k < open.size(); ++k) {
    const ReducedRows::Row &row = into[first + static_cast<int>(k)];
    if (row.first == row.end && row.rest <= 0) continue;
    into[first + kept] = row;
    open[kept++] = open[k];
  }
  open.resize(kept);
  into.keep_first(first + kept);
}

void LevelConstraints::build(const Problem &problem, const HeldInequalities &held, LimitsAre limits, bool point_holds,
                             Reduction &reduction, Magnitude &magnitude, const WorkCounter &count) {
  ReducedRows &rows = constraints_.rows;
  rows.clear();
  constraints_.equalities = reduction.append_kept(rows);
  magnitude.see(rows.all());
  count.add(static_cast<std::int64_t>(at_least_.size()));
  add_open(problem.at_least, held.any(), held.at_least(), point_holds, reduction, magnitude, at_least_);
  constraints_.soft_from = rows.size();
  if (limits != LimitsAre::left_out) {
    count.add(static_cast<std::int64_t>(limits_.size()));
    add_open(problem.limits, held.any(), held.limits(), point_holds, reduction, magnitude, limits_);
  }
  if (limits != LimitsAre::soft) constraints_.soft_from = rows.size();
}

} // namespace gatherwright::optimum
