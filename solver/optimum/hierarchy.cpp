// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/hierarchy.hpp"

#include "solver/optimum/dense.hpp"
#include "solver/optimum/tolerances.hpp"
#include "solver/optimum/wishes_at_once.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright::optimum {

namespace {

/// Problems of more unknowns than this are worth a search for where to begin.
constexpr int large = 200;

/// What bound a level is guessed again where there is at least one such row for so many unknowns: fewer are found anew
/// as soon as all that is open is written anew with them held.
constexpr int unknowns_a_guess = 20;

void clear(Multipliers &multipliers) {
  multipliers.equal.clear();
  multipliers.at_least.clear();
  multipliers.limits.clear();
  for (std::vector<double> &wishes : multipliers.wishes)
    wishes.clear();
}

bool wishes_after(const Problem &problem, int level) {
  for (int later = level + 1; later < wish_levels; ++later)
    if (problem.wishes[later].size() > 0) return true;
  return false;
}

} // namespace

void Hierarchy::count_into(Work *work) {
  count_.into(work);
  reduction_.count_into(work);
  descent_.count_into(work);
}

/// False: it was too much work, or takes too much room.
bool Hierarchy::begin(const Problem &problem, const Elimination *start) {
  magnitude_ = {};
  descent_.forget_nearly_parallel();
  held_.begin(problem);
  constraints_.begin(problem);
  solution_.violation.assign(problem.limits.size(), 0.0);
  if (start)
    reduction_.begin(problem, start->reduction());
  else if (!reduction_.begin(problem))
    return false;
  to_hold_.clear();
  for (int i = start ? start->equalities() : 0; i < problem.equal.size(); ++i)
    to_hold_.push_back({RowName::Set::equal, 0, i});
  if (!reduction_.hold(to_hold_, Reduction::Hold::at_bound)) return false;
  // What the equalities were is no longer seen in the reduced rows.
  for (int i = 0; i < problem.equal.size(); ++i)
    if (const double most = largest(problem.equal.row(i)); most > 0)
      magnitude_.see(std::abs(problem.equal.bound[i]) / most);
  magnitude_.see(reduction_.point());
  return true;
}

void Hierarchy::build_constraints(const Progress &progress, LimitsAre limits) {
  constraints_.build(progress.problem, held_, limits, progress.point_holds, reduction_, magnitude_, count_);
}

/// Moves the point to where the constraints as built are kept.
void Hierarchy::move_point(Progress &progress) {
  reduction_.move(descent_.active_set().point());
  magnitude_.see(reduction_.point());
  progress.point_holds = true;
}

/// Solves one level within the constraints as built, and moves the point to the answer.
Hierarchy::Outcome Hierarchy::solve_level(const Rows &wishes, Progress &progress) {
  const auto [outcome, regular] = descent_.meet_wishes(wishes, constraints_.rows(), reduction_, magnitude_);
  progress.regular = regular;
  if (outcome == Outcome::optimal) move_point(progress);
  return outcome;
}

/// Settles whether the limits can hold, which the constraints as built say, by the point nearest to some wishes at
/// which they do; of no wishes, by the nearest point.
Status Hierarchy::settle_near(const Rows &near, const Rows &wishes, Progress &progress) {
  const Outcome outcome = solve_level(near, progress);
  if (outcome == Outcome::too_much_work) return Status::too_much_work;
  if (outcome == Outcome::infeasible)
    if (const Status status = settle_limits(wishes, progress); status != Status::optimal) return status;
  progress.limits_settled = outcome != Outcome::stalled;
  return Status::optimal;
}

/// Settles whether the limits can hold, where that is not yet known, by the nearest point at which they do.
Status Hierarchy::settle_here(const Rows &wishes, Progress &progress) {
  if (progress.limits_settled) return Status::optimal;
  build_constraints(progress, LimitsAre::hard);
  return settle_near({}, wishes, progress);
}

/// Whether the wishes are the first of a large problem, leave much open within the constraints as built, and begin at
/// no answer of a problem much the same: what is open would then be drawn to a place that keeps nothing, and most of
/// what binds it there would have to be let go again.
bool Hierarchy::begins_far(const Rows &wishes, const Progress &progress) const {
  const int open = reduction_.layout().size() - constraints_.rows().equalities;
  return !progress.warm && !progress.limits_settled && progress.problem.unknowns > large && wishes.size() < open;
}

/// Whether it is known what bound a level where the search begins, and that is so much that it is worth guessing again.
bool Hierarchy::is_guessed(int level, const Progress &progress) {
  bound_.clear();
  if (!progress.warm) return false;
  for (const Binding::Row &row : progress.warm->binding.rows)
    if (row.level == level) bound_.push_back(row.name);
  return static_cast<int>(bound_.size()) * unknowns_a_guess >= progress.problem.unknowns;
}

/// Solves a level from what bound it where the search begins. False: nothing has come of that.
bool Hierarchy::solve_guessed(int level, Progress &progress) {
  if (!guessed_.solve({progress.problem, held_, reduction_}, level, bound_, magnitude_, descent_, count_)) return false;
  std::swap(reduction_, guessed_.reduction());
  magnitude_.see(reduction_.point());
  progress.regular = guessed_.regular();
  for (const std::vector<RowName> *rows : {&guessed_.guessed(), &guessed_.others()})
    for (const RowName &row : *rows)
      binding_.rows.push_back({level, row});
  return true;
}

/// Holds what a level solved from a guess has gained. False: it was too much work.
bool Hierarchy::hold_guessed(int level, Progress &progress) {
  held_ = guessed_.held();
  name_wishes(progress.problem, level);
  for (const RowName &row : guessed_.others()) {
    to_hold_.push_back(row);
    held_.hold(row, level + 1);
  }
  return reduction_.hold(to_hold_, Reduction::Hold::at_point);
}

/// The active set has found that level 0 cannot hold.
Status Hierarchy::contradiction(const Problem &problem) {
  size_multipliers(problem, 0, solution_.conflict);
  const double size = multipliers_.no_gradient(problem);
  multipliers_.give(problem, constraints_, descent_.active_set().multipliers(), size, reduction_, solution_.conflict);
  leave_out_rounding(problem, solution_.conflict);
  return Status::conflict;
}

/// By how much each limit is missed, where that is more than rounding.
void Hierarchy::find_violations(const Problem &problem) {
  const Rows &limits = problem.limits;
  for (int i = 0; i < limits.size(); ++i) {
    double violation = limits.bound[i];
    double numbers = std::abs(limits.bound[i]);
    for (const Term &term : limits.row(i)) {
      violation -= term.value * reduction_.point()[term.column];
      numbers += std::abs(term.value) * magnitude_.size();
    }
    solution_.violation[i] = violation > tolerance::no_violation * numbers ? violation : 0;
  }
}

/// Level 1 where the limits cannot all hold: each may be missed, at the cost of the square. Anything but `optimal`: why
/// no more is to be solved.
Status Hierarchy::settle_limits(const Rows &wishes, Progress &progress) {
  const Problem &problem = progress.problem;
  // Without limits or wishes it was level 0 alone that was asked for.
  if (problem.limits.size() == 0 && wishes.size() == 0) return contradiction(problem);
  build_constraints(progress, LimitsAre::soft);
  const Outcome outcome =
      descent_.miss_least(constraints_.rows(), reduction_.layout(), magnitude_.size(), descent_.active_set().point());
  if (outcome == Outcome::infeasible) return contradiction(problem);
  if (outcome == Outcome::too_much_work) return Status::too_much_work;
  progress.stalled = outcome == Outcome::stalled;
  move_point(progress);
  find_violations(problem);
  if (largest(solution_.violation) == 0) return Status::optimal;
  const double size = multipliers_.find_gradient(problem, solution_.violation, magnitude_.size());
  if (progress.everything) {
    size_multipliers(problem, 0, solution_.levels[0]);
    multipliers_.give(problem, constraints_, descent_.active_set().multipliers(), size, reduction_,
                      solution_.levels[0]);
  }
  return hold_violated_limits(problem, size) ? Status::optimal : Status::too_much_work;
}

/// Holds the rows of the level just solved that its multipliers bind, besides those named already. False: it was too
/// much work.
bool Hierarchy::hold_with_bound(int level, double size_of_gradient) {
  const std::size_t named = to_hold_.size();
  append_binding(descent_.active_set(), constraints_, size_of_gradient, to_hold_);
  for (std::size_t i = named; i < to_hold_.size(); ++i)
    held_.hold(to_hold_[i], level);
  return reduction_.hold(to_hold_, Reduction::Hold::at_point);
}

bool Hierarchy::hold_violated_limits(const Problem &problem, double size_of_gradient) {
  to_hold_.clear();
  for (int i = 0; i < problem.limits.size(); ++i) {
    if (!(solution_.violation[i] > 0)) continue;
    const RowName name{RowName::Set::limits, 0, i};
    held_.hold(name, 0);
    if (!problem.limits.row(i).empty()) to_hold_.push_back(name);
  }
  return hold_with_bound(0, size_of_gradient);
}

void Hierarchy::name_wishes(const Problem &problem, int level) {
  to_hold_.clear();
  for (int i = 0; i < problem.wishes[level].size(); ++i)
    to_hold_.push_back({RowName::Set::wishes, level, i});
}

bool Hierarchy::hold_level(const Problem &problem, int level, double size_of_gradient) {
  name_wishes(problem, level);
  return hold_with_bound(level + 1, size_of_gradient);
}

/// Multipliers of the level just solved, where they are wanted. Returns the size of its gradient.
double Hierarchy::find_multipliers(const Progress &progress, int level) {
  const Problem &problem = progress.problem;
  const double size = multipliers_.find_gradient(problem, problem.wishes[level], reduction_.point(), magnitude_.size());
  if (!progress.everything) return size;
  Multipliers &into = solution_.levels[level + 1];
  size_multipliers(problem, level, into);
  multipliers_.give(problem, constraints_, descent_.active_set().multipliers(), size, reduction_, into);
  make_good(problem, held_, reduction_.point(), level + 1, solution_);
  return size;
}

/// Solves a level from nothing, and settles whether the limits can hold where that is not yet known. Anything but
/// `optimal`: why no more is to be solved.
Status Hierarchy::solve_anew(const Rows &wishes, Progress &progress) {
  build_constraints(progress, LimitsAre::hard);
  if (begins_far(wishes, progress)) {
    const Rows all = wishes_at_once(progress.problem);
    if (const Status status = settle_near(all, wishes, progress); status != Status::optimal) return status;
    build_constraints(progress, LimitsAre::hard);
  }
  Outcome outcome = solve_level(wishes, progress);
  if (outcome == Outcome::infeasible && !progress.limits_settled) {
    if (const Status status = settle_limits(wishes, progress); status != Status::optimal) return status;
    build_constraints(progress, LimitsAre::hard);
    outcome = solve_level(wishes, progress);
  }
  if (outcome == Outcome::too_much_work) return Status::too_much_work;
  progress.stalled |= outcome != Outcome::optimal;
  progress.limits_settled = true;
  return Status::optimal;
}

/// All but what of the last level is to be held.
Status Hierarchy::solve_levels(Progress &progress) {
  const Problem &problem = progress.problem;
  for (int level = 0; level < wish_levels; ++level) {
    const Rows &wishes = problem.wishes[level];
    const bool last = !wishes_after(problem, level);
    if (wishes.size() == 0 && (progress.limits_settled || !last)) continue;
    if (is_guessed(level, progress)) {
      if (const Status status = settle_here(wishes, progress); status != Status::optimal) return status;
      if (solve_guessed(level, progress)) {
        if (last || progress.regular) break;
        if (!hold_guessed(level, progress)) return Status::too_much_work;
        continue;
      }
    }
    if (const Status status = solve_anew(wishes, progress); status != Status::optimal) return status;
    if (wishes.size() == 0) break; // the proximal term alone chose the point: no level has multipliers for that
    if (last && !progress.everything && !progress.warm) break;
    progress.size_of_gradient = find_multipliers(progress, level);
    progress.last_level = level;
    note_binding(level, progress);
    if (progress.regular && progress.warm) break; // later levels have nothing left to choose
    if (!last && !hold_level(problem, level, progress.size_of_gradient)) return Status::too_much_work;
  }
  return progress.stalled ? Status::stalled : Status::optimal;
}

/// What binds the level is what a problem much the same will begin with.
void Hierarchy::note_binding(int level, const Progress &progress) {
  bound_.clear();
  append_binding(descent_.active_set(), constraints_, progress.size_of_gradient, bound_);
  for (const RowName &row : bound_)
    binding_.rows.push_back({level, row});
}

/// Holds what the last level has gained, and finds what can still move then. False: it was too much work.
bool Hierarchy::find_loose(const Progress &progress) {
  const int last = progress.last_level;
  if (last >= 0 && progress.regular) return true; // such a level leaves nothing open
  if (last >= 0 && !hold_level(progress.problem, last, progress.size_of_gradient)) return false;
  if (reduction_.layout().size() == 0) return true;
  build_constraints(progress, LimitsAre::hard);
  return loose_.find(reduction_, constraints_.rows(), magnitude_.size(), descent_, solution_.loose);
}

bool Hierarchy::feasible(const Problem &problem) {
  static const Rows no_wishes;
  if (!begin(problem, nullptr)) return true;
  Progress progress{problem, false, nullptr};
  build_constraints(progress, LimitsAre::left_out);
  return solve_level(no_wishes, progress) != Outcome::infeasible;
}

const Solution &Hierarchy::solve(const Problem &problem, Wanted wanted, const Elimination *start,
                                 const WarmStart *warm) {
  solution_.status = Status::too_much_work;
  if (count_.spent() || !begin(problem, start)) return solution_;
  if (warm) reduction_.move_to(warm->x);
  binding_.rows.clear();
  solution_.loose.assign(problem.unknowns, 0);
  for (Multipliers &multipliers : solution_.levels)
    clear(multipliers);
  Progress progress{problem, wanted == Wanted::everything, wanted == Wanted::point ? warm : nullptr};
  solution_.status = solve_levels(progress);
  if (solution_.status == Status::conflict || solution_.status == Status::too_much_work) return solution_;
  solution_.x.assign(reduction_.point().begin(), reduction_.point().end());
  if (progress.everything && !find_loose(progress)) solution_.status = Status::too_much_work;
  return solution_;
}

} // namespace gatherwright::optimum
