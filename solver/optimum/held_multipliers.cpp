// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/held_multipliers.hpp"

namespace gatherwright::optimum {

namespace {

/// Gives a row its multiplier, and takes what that settles from the gradient.
void give(const Problem &problem, const RowName &name, double multiplier, std::span<double> gradient,
          Multipliers &into) {
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
  for (const Term &term : rows_of(problem, name).row(name.row))
    gradient[term.column] -= multiplier * term.value;
}

} // namespace

/// Adds a row left times its multiplier to what is settled of the shared unknowns' gradient, or takes it away again.
void HeldMultipliers::settle(const LeftRows &left, int row, double sign) {
  for (const Term &term : left.terms_of(row))
    of_shared_[term.column] += sign * of_left_[row] * term.value;
}

/// The rows that fix unknowns, the last first, each from the gradient along what moves with its unknown, less what the
/// rows left whose multipliers are known already give there.
void HeldMultipliers::find_fixing(const Stage &stage, const LeftRows &left, std::span<const double> gradient) {
  for (int f = stage.end_fix - 1; f >= stage.first_fix; --f) {
    const LeftRows::Fix &fix = left.fix(f);
    double along = -of_shared_[fix.shared];
    for (const Term &term : left.moved_by(fix))
      along += term.value * gradient[term.column];
    of_left_[fix.left] = along / fix.value;
    settle(left, fix.left, 1);
  }
}

void HeldMultipliers::find(const Problem &problem, const Reused<Stage> &stages, const BlockEliminations &blocks,
                           const LeftRows &left, std::span<const double> of_kept, std::span<double> gradient,
                           Multipliers &into, const WorkCounter &count) {
  const bool any_fix = left.fixes() > 0;
  of_left_.assign(left.size(), 0.0);
  of_shared_.assign(problem.unknowns - problem.shared_begin(), 0.0);
  for (int i = 0, kept = 0; i < left.size(); ++i) {
    if (!left.is_kept(i)) continue;
    of_left_[i] = of_kept[kept++];
    if (any_fix) settle(left, i, 1);
  }
  for (int s = stages.size() - 1; s >= 0; --s) {
    const Stage &stage = stages[s];
    find_fixing(stage, left, gradient);
    if (any_fix)
      for (int i = stage.first_left; i < stage.end_left; ++i)
        settle(left, i, -1);
    for (const BlockElimination &own : blocks.from_to(stage.first_block, stage.end_block)) {
      count.add(own.work());
      const std::span<const double> found = own.multipliers(of_left_, gradient, room_);
      for (std::size_t i = 0; i < found.size(); ++i)
        give(problem, stage.rows[own.first_row() + i], found[i], gradient, into);
    }
    for (int i = 0; i < stage.shared_rows(); ++i)
      give(problem, stage.rows[stage.first_shared_row() + i], of_left_[stage.first_shared_left + i], gradient, into);
  }
}

} // namespace gatherwright::optimum
