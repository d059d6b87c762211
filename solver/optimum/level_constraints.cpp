// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/level_constraints.hpp"

#include <algorithm>
#include <numeric>

namespace gatherwright::optimum {

/// Adds the rows that no level holds.
void LevelConstraints::add_open(const Rows &rows, const HeldInequalities &held, std::span<const int> held_by,
                                Reduction &reduction) {
  const std::size_t before = row_.size();
  if (!held.any()) {
    row_.resize(before + rows.size());
    std::iota(row_.begin() + static_cast<std::ptrdiff_t>(before), row_.end(), 0);
    reduction.append(rows, constraints_.rows);
    return;
  }
  for (int i = 0; i < rows.size(); ++i)
    if (held_by[i] < 0) row_.push_back(i);
  reduction.append(rows, std::span(row_).subspan(before), constraints_.rows);
}

void LevelConstraints::build(const Problem &problem, const HeldInequalities &held, LimitsAre limits, bool point_holds,
                             Reduction &reduction, Magnitude &magnitude, const WorkCounter &count) {
  ReducedRows &rows = constraints_.rows;
  rows.clear();
  row_.clear();
  constraints_.equalities = reduction.append_kept(rows);
  count.add(problem.at_least.size());
  add_open(problem.at_least, held, held.at_least(), reduction);
  first_limit_ = static_cast<int>(row_.size());
  constraints_.soft_from = rows.size();
  if (limits != LimitsAre::left_out) {
    count.add(problem.limits.size());
    add_open(problem.limits, held, held.limits(), reduction);
  }
  if (limits != LimitsAre::soft) constraints_.soft_from = rows.size();
  magnitude.see(rows);
  if (point_holds)
    for (int i = constraints_.equalities; i < rows.size(); ++i)
      rows[i].rest = std::min(rows[i].rest, 0.0);
}

} // namespace gatherwright::optimum
