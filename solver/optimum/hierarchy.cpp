// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/hierarchy.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace gatherwright::optimum {

namespace {

/// An unknown whose pivot is less than this share of the greatest is left open by a level's wishes.
constexpr double open_share = 1e-7;

/// Weight of the proximal term over the greatest norm of a wish. What the wishes do see converges by its square in each
/// move. Where that is slow the weight is lessened; the square of its share must stay well above rounding (1e-16),
/// since steps along what is open are divided by it.
constexpr double proximal_share = 1e-4;
constexpr double least_proximal_share = 1e-5;

/// A move that is not this much shorter than the one before is slow.
constexpr double slow = 0.05;

/// The centre stands still where it moves by no more than this share of the numbers, times what the factor's condition
/// (the greatest norm over the weight) makes of it: a few roundings.
constexpr double still = 1e-15;

/// It is also at rest where moves are slow and the slope they come of (the move times the square of the weight) is
/// below this share of the gradient: that is rounding. After many moves a little more than rounding will do.
constexpr double no_slope = 1e-15;
constexpr double little_slope = 1e-13;
constexpr int many_moves = 20;
constexpr int most_moves = 100;

/// The centre goes ahead at most this many times a move.
constexpr double most_ahead = 1e4;

/// A violation below this share of the numbers in its row is rounding: the limit can hold.
constexpr double no_violation = 1e-11;

/// A multiplier that weighs less than this share of its level's gradient is rounding in a wish that is met.
constexpr double no_multiplier = 1e-12;

/// One that weighs more than this share is clearly above 0: making good a later multiplier of the other sign then takes
/// no more than a million times as much of the level's balance.
constexpr double clear_multiplier = 1e-6;

/// Unknowns that move by less than this share of the numbers, drawn to a place as far away as those, cannot move.
constexpr double moved_share = 1e-8;

double largest(std::span<const double> values) {
  double most = 0;
  for (const double value : values)
    most = std::max(most, std::abs(value));
  return most;
}

double largest(std::span<const Term> terms) {
  double most = 0;
  for (const Term &term : terms)
    most = std::max(most, std::abs(term.value));
  return most;
}

void clear(Multipliers &multipliers) {
  multipliers.equal.clear();
  multipliers.at_least.clear();
  multipliers.limits.clear();
  for (std::vector<double> &wishes : multipliers.wishes)
    wishes.clear();
}

} // namespace

void Hierarchy::count_into(Work *work) {
  count_.into(work);
  reduction_.count_into(work);
  factor_.count_into(work);
  active_set_.count_into(work);
}

/// The numbers are at least as large as the bounds over the norms of their rows.
void Hierarchy::look_at_size(const ReducedRows &rows) {
  for (int i = 0; i < rows.size(); ++i)
    if (std::abs(rows[i].rest) > magnitude_ * rows[i].norm && rows[i].norm > 0)
      magnitude_ = std::abs(rows[i].rest) / rows[i].norm;
}

bool Hierarchy::wishes_after(int level) const {
  for (int later = level + 1; later < wish_levels; ++later)
    if (problem_->wishes[later].size() > 0) return true;
  return false;
}

/// False: it was too much work, or takes too much room.
bool Hierarchy::begin(const Problem &problem, const Elimination *start) {
  problem_ = &problem;
  magnitude_ = 0;
  point_holds_ = false;
  regular_ = false;
  any_bound_ = false;
  active_set_.forget_nearly_parallel();
  bound_at_least_.assign(problem.at_least.size(), -1);
  bound_limit_.assign(problem.limits.size(), -1);
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
      magnitude_ = std::max(magnitude_, std::abs(problem.equal.bound[i]) / most);
  magnitude_ = std::max(magnitude_, largest(reduction_.point()));
  return true;
}

/// Held equalities first, then level 0's inequalities, then the limits that can hold. Once the point keeps all that
/// must hold, what it misses in a row is rounding, and the row asks for no more than the point gives: so the point
/// itself always solves what is asked of later levels.
void Hierarchy::build_constraints(LimitsAre limits) {
  ReducedRows &rows = constraints_.rows;
  rows.clear();
  row_of_constraint_.clear();
  constraints_.equalities = reduction_.append_kept(rows);
  const auto add_open = [&](const Rows &of, const std::vector<int> &held_by) {
    const std::size_t before = row_of_constraint_.size();
    for (int i = 0; i < of.size(); ++i)
      if (held_by[i] < 0) row_of_constraint_.push_back(i);
    count_.add(of.size());
    reduction_.append(of, std::span(row_of_constraint_).subspan(before), rows);
  };
  add_open(problem_->at_least, bound_at_least_);
  first_limit_ = static_cast<int>(row_of_constraint_.size());
  constraints_.soft_from = rows.size();
  if (limits != LimitsAre::left_out) add_open(problem_->limits, bound_limit_);
  if (limits != LimitsAre::soft) constraints_.soft_from = rows.size();
  look_at_size(rows);
  if (point_holds_)
    for (int i = constraints_.equalities; i < rows.size(); ++i)
      rows[i].rest = std::min(rows[i].rest, 0.0);
}

/// The row of an inequality: of at_least, or of the limits.
RowName Hierarchy::name_of(int inequality) const {
  return {inequality < first_limit_ ? RowName::Set::at_least : RowName::Set::limits, 0, row_of_constraint_[inequality]};
}

/// The factor of the wishes with a proximal term of this weight, about the centre.
void Hierarchy::factor_with_weight(double weight, std::span<const double> centre) {
  factor_.reset(reduction_.layout(), weight);
  if (weight > 0 && !centre.empty()) factor_.aim_at(centre);
  for (int i = 0; i < reduced_wishes_.size(); ++i)
    factor_.insert(reduced_wishes_.view(i), reduced_wishes_[i].rest);
}

/// Factors the wishes; where they leave unknowns open, with a proximal term, whose weight is returned, else 0.
double Hierarchy::factor_wishes(double greatest_norm) {
  const double weight = greatest_norm > 0 ? proximal_share * greatest_norm : 1;
  if (reduced_wishes_.size() >= reduction_.layout().size()) {
    factor_with_weight(0, {});
    if (factor_.least_pivot() > open_share * factor_.greatest_pivot()) {
      factor_.finish();
      return 0;
    }
  }
  factor_with_weight(weight, {});
  factor_.finish();
  return weight;
}

/// Solves one level within the constraints as built, and moves the point to the answer.
ActiveSet::Outcome Hierarchy::solve_level(const Rows &wishes) {
  reduced_wishes_.clear();
  reduction_.append(wishes, reduced_wishes_);
  look_at_size(reduced_wishes_);
  if (magnitude_ == 0) magnitude_ = 1;
  const double greatest_norm = largest(reduced_wishes_.all_terms());
  const double weight = factor_wishes(greatest_norm);
  regular_ = weight == 0;
  ActiveSet::Outcome outcome = active_set_.solve(factor_, constraints_, magnitude_);
  const bool moving = weight > 0 && wishes.size() > 0;
  if (outcome == ActiveSet::Outcome::optimal && moving) outcome = move_centre_to_rest(weight, greatest_norm);
  if (outcome != ActiveSet::Outcome::optimal) return outcome;
  reduction_.move(active_set_.point());
  point_holds_ = true;
  magnitude_ = std::max(magnitude_, largest(reduction_.point()));
  return outcome;
}

/// Moves the centre to the point until it stands still. What wishes see only weakly comes near by a constant share in
/// each move: the weight is lessened first, then the centre goes ahead to where such moves would end (Aitken).
ActiveSet::Outcome Hierarchy::move_centre_to_rest(double weight, double greatest_norm) {
  const std::size_t open = factor_.size();
  centre_.assign(open, 0.0);
  step_.resize(open);
  last_step_.resize(open);
  moved_.resize(open);
  double before = HUGE_VAL;
  bool comparable = false; // the last move was a plain one, of this weight and active set
  for (int moves = 0; moves < most_moves; ++moves) {
    const std::span<const double> point = active_set_.point();
    for (std::size_t c = 0; c < open; ++c)
      step_[c] = point[c] - centre_[c];
    const double longest = largest(step_);
    const double share = greatest_norm > 0 ? weight / greatest_norm : 1;
    const double slope = share * share * longest / magnitude_;
    if (longest <= still * magnitude_ / share) return ActiveSet::Outcome::optimal;
    const bool near = longest <= slow * before;
    if (!near && slope <= (moves < many_moves ? no_slope : little_slope)) return ActiveSet::Outcome::optimal;
    before = longest;
    ActiveSet::Outcome outcome = ActiveSet::Outcome::optimal;
    if (!near && moves > 0 && share > least_proximal_share) {
      weight *= least_proximal_share / share;
      centre_.assign(point.begin(), point.end());
      factor_with_weight(weight, centre_);
      factor_.finish();
      outcome = active_set_.solve(factor_, constraints_, magnitude_);
      before = HUGE_VAL;
      comparable = false;
    } else {
      double ahead = 1;
      if (comparable && !near && active_set_.changes() == 0) {
        double along = 0;
        double square = 0;
        for (std::size_t c = 0; c < open; ++c) {
          along += step_[c] * last_step_[c];
          square += last_step_[c] * last_step_[c];
        }
        if (along > 0 && along < square) ahead = std::min(1 / (1 - along / square), most_ahead);
      }
      last_step_.swap(step_);
      comparable = ahead == 1;
      step_.resize(open);
      for (std::size_t c = 0; c < open; ++c) {
        step_[c] = ahead * last_step_[c];
        centre_[c] += step_[c];
      }
      factor_.move_centre(weight, step_, moved_);
      outcome = active_set_.solve_again(moved_);
    }
    if (outcome != ActiveSet::Outcome::optimal) return outcome;
  }
  return ActiveSet::Outcome::stalled;
}

/// `level` counts the levels of wishes before it.
void Hierarchy::size_multipliers(Multipliers &into, int level) const {
  into.equal.assign(problem_->equal.size(), 0.0);
  into.at_least.assign(problem_->at_least.size(), 0.0);
  into.limits.assign(problem_->limits.size(), 0.0);
  for (int i = 0; i < wish_levels; ++i)
    into.wishes[i].assign(i < level ? problem_->wishes[i].size() : 0, 0.0);
}

inline void Hierarchy::add_to_gradient(const Rows &rows, int row, double factor) {
  for (const Term &term : rows.row(row))
    gradient_[term.column] += factor * term.value;
}

/// Adds a row times what it is off by at the point, and looks at the size of what went into that, with every unknown as
/// large as the numbers: the measure of rounding in the gradient.
inline void Hierarchy::add_residual_to_gradient(const Rows &rows, int row, double off) {
  double coefficients = 0;
  double greatest = 0;
  for (const Term &term : rows.row(row)) {
    gradient_[term.column] += off * term.value;
    coefficients += std::abs(term.value);
    greatest = std::max(greatest, std::abs(term.value));
  }
  size_of_gradient_ = std::max(size_of_gradient_, greatest * (coefficients * magnitude_ + std::abs(rows.bound[row])));
}

inline double Hierarchy::residual(const Rows &rows, int row) const {
  double off = -rows.bound[row];
  for (const Term &term : rows.row(row))
    off += term.value * reduction_.point()[term.column];
  return off;
}

/// The gradient of the level just solved: A'(A x - b) of its wishes, or of the limits that it misses.
void Hierarchy::find_gradient(const Rows &wishes, bool limits) {
  gradient_.assign(problem_->unknowns, 0.0);
  size_of_gradient_ = 0;
  for (int i = 0; i < wishes.size(); ++i)
    add_residual_to_gradient(wishes, i, residual(wishes, i));
  if (limits)
    for (int i = 0; i < problem_->limits.size(); ++i)
      if (solution_.violation[i] > 0) add_residual_to_gradient(problem_->limits, i, -solution_.violation[i]);
}

/// Multipliers of the raw rows for the level just solved: its gradient is what they must sum to.
void Hierarchy::give_multipliers(Multipliers &into) {
  const double nothing = no_multiplier * size_of_gradient_;
  const int held = constraints_.equalities;
  held_multipliers_.assign(held, 0.0);
  for (const auto &[constraint, multiplier] : active_set_.multipliers()) {
    if (constraint >= constraints_.soft_from || std::abs(multiplier) * constraints_.rows[constraint].norm < nothing)
      continue;
    if (constraint < held) {
      held_multipliers_[constraint] = multiplier;
      continue;
    }
    const RowName name = name_of(constraint - held);
    (name.set == RowName::Set::at_least ? into.at_least : into.limits)[name.row] = multiplier;
    add_to_gradient(rows_of(*problem_, name), name.row, -multiplier);
  }
  for (double &component : gradient_)
    if (std::abs(component) < nothing) component = 0;
  reduction_.multipliers(held_multipliers_, gradient_, into);
}

/// Inequalities held since an earlier level may have got a multiplier below 0. That level's balance (its gradient less
/// its rows times their multipliers is 0) is added so many times that none is left: there they have one clearly above.
void Hierarchy::make_good(int level) {
  if (!any_bound_) return;
  share_.fill(0);
  Multipliers &into = solution_.levels[level];
  for (std::size_t i = 0; i < bound_at_least_.size(); ++i)
    if (const int there = bound_at_least_[i]; there >= 0 && into.at_least[i] < 0)
      share_[there] = std::max(share_[there], -into.at_least[i] / solution_.levels[there].at_least[i]);
  for (std::size_t i = 0; i < bound_limit_.size(); ++i)
    if (const int there = bound_limit_[i]; there >= 0 && solution_.violation[i] == 0 && into.limits[i] < 0)
      share_[there] = std::max(share_[there], -into.limits[i] / solution_.levels[there].limits[i]);
  for (int earlier = 0; earlier < level; ++earlier) {
    const double share = share_[earlier];
    if (share == 0) continue;
    const Multipliers &from = solution_.levels[earlier];
    const auto add = [&](std::vector<double> &to, const std::vector<double> &of) {
      for (std::size_t i = 0; i < of.size(); ++i)
        to[i] += share * of[i];
    };
    add(into.equal, from.equal);
    add(into.at_least, from.at_least);
    add(into.limits, from.limits);
    for (int l = 0; l + 1 < earlier; ++l)
      add(into.wishes[l], from.wishes[l]);
    if (earlier == 0) {
      add(into.limits, solution_.violation);
      continue;
    }
    const Rows &wishes = problem_->wishes[earlier - 1];
    for (int i = 0; i < wishes.size(); ++i)
      into.wishes[earlier - 1][i] -= share * residual(wishes, i);
  }
}

/// The active set has found that level 0 cannot hold. False, always.
bool Hierarchy::give_contradiction() {
  size_multipliers(solution_.conflict, 0);
  find_gradient(no_wishes_, false);
  give_multipliers(solution_.conflict);
  solution_.status = Status::conflict;
  return false;
}

/// Level 1 where the limits cannot all hold: each may be missed, at the cost of the square. False: level 0 conflicts,
/// or it was too much work.
bool Hierarchy::meet_limits_as_far_as_possible() {
  build_constraints(LimitsAre::soft);
  double greatest_norm = 0;
  for (int i = constraints_.soft_from; i < constraints_.size(); ++i)
    greatest_norm = std::max(greatest_norm, largest(constraints_.rows.view(i).terms));
  reduced_wishes_.clear();
  const double weight = greatest_norm > 0 ? proximal_share * greatest_norm : 1;
  factor_with_weight(weight, {});
  factor_.finish();
  ActiveSet::Outcome outcome = active_set_.solve(factor_, constraints_, magnitude_);
  if (outcome == ActiveSet::Outcome::optimal) outcome = move_centre_to_rest(weight, greatest_norm);
  if (outcome == ActiveSet::Outcome::infeasible) return give_contradiction();
  if (outcome == ActiveSet::Outcome::too_much_work) {
    solution_.status = Status::too_much_work;
    return false;
  }
  if (outcome == ActiveSet::Outcome::stalled) solution_.status = Status::stalled;
  reduction_.move(active_set_.point());
  point_holds_ = true;
  magnitude_ = std::max(magnitude_, largest(reduction_.point()));
  for (int i = 0; i < problem_->limits.size(); ++i) {
    const Rows &limits = problem_->limits;
    double violation = limits.bound[i];
    double numbers = std::abs(limits.bound[i]);
    for (const Term &term : limits.row(i)) {
      violation -= term.value * reduction_.point()[term.column];
      numbers += std::abs(term.value) * magnitude_;
    }
    solution_.violation[i] = violation > no_violation * numbers ? violation : 0;
  }
  return true;
}

/// The rows of the level just solved that its multipliers bind.
void Hierarchy::name_clearly_bound(int level) {
  const double clear = clear_multiplier * size_of_gradient_;
  for (const auto &[constraint, multiplier] : active_set_.multipliers()) {
    if (constraint < constraints_.equalities || constraint >= constraints_.soft_from) continue;
    if (!(multiplier * constraints_.rows[constraint].norm > clear)) continue;
    const RowName name = name_of(constraint - constraints_.equalities);
    to_hold_.push_back(name);
    (name.set == RowName::Set::at_least ? bound_at_least_ : bound_limit_)[name.row] = level;
    any_bound_ = true;
  }
}

bool Hierarchy::hold_violated_limits() {
  to_hold_.clear();
  for (int i = 0; i < problem_->limits.size(); ++i) {
    if (!(solution_.violation[i] > 0)) continue;
    bound_limit_[i] = 0;
    if (!problem_->limits.row(i).empty()) to_hold_.push_back({RowName::Set::limits, 0, i});
  }
  name_clearly_bound(0);
  return reduction_.hold(to_hold_, Reduction::Hold::at_point);
}

bool Hierarchy::hold_level(int level) {
  to_hold_.clear();
  for (int i = 0; i < problem_->wishes[level].size(); ++i)
    to_hold_.push_back({RowName::Set::wishes, level, i});
  name_clearly_bound(level + 1);
  return reduction_.hold(to_hold_, Reduction::Hold::at_point);
}

/// Draws what is open towards a place, within all that is held.
ActiveSet::Outcome Hierarchy::draw(std::span<const double> towards) {
  factor_.reset(reduction_.layout(), 1);
  factor_.aim_at(towards);
  factor_.finish();
  return active_set_.solve(factor_, constraints_, magnitude_);
}

void Hierarchy::mark_moved() {
  displacement_.resize(problem_->unknowns);
  reduction_.displacement(active_set_.point(), displacement_);
  for (int i = 0; i < problem_->unknowns; ++i)
    if (std::abs(displacement_[i]) > moved_share * magnitude_) solution_.loose[i] = 1;
}

/// Unknowns that can still move. Drawn towards a place far away in some direction, and in the opposite one, the point
/// stays where it is only if that direction is closed; so all of them are tried together, along a direction that is
/// orthogonal to nothing in particular, then those that stayed one by one, each along its own. False: it was too much
/// work.
bool Hierarchy::find_loose() {
  const int open = reduction_.layout().size();
  if (open == 0) return true;
  build_constraints(LimitsAre::hard);
  towards_.resize(open);
  bool any = false;
  for (const double side : {1.0, -1.0}) {
    std::uint32_t state = 12345;
    for (double &far : towards_) {
      state = state * 1664525U + 1013904223U;
      far = side * magnitude_ * (0.5 + state / 4294967296.0);
    }
    const ActiveSet::Outcome outcome = draw(towards_);
    if (outcome == ActiveSet::Outcome::too_much_work) return false;
    if (outcome != ActiveSet::Outcome::optimal) continue;
    if (active_set_.equalities() == open) return true; // all that is held leaves nothing open
    mark_moved();
  }
  for (const char loose : solution_.loose)
    any = any || loose;
  if (!any) return true;
  for (int i = 0; i < problem_->unknowns; ++i)
    for (const double side : {1.0, -1.0}) {
      if (solution_.loose[i]) break;
      reduction_.row_of(i, towards_);
      const double length = largest(towards_);
      if (length == 0) break;
      for (double &far : towards_)
        far *= side * magnitude_ / length;
      const ActiveSet::Outcome outcome = draw(towards_);
      if (outcome == ActiveSet::Outcome::too_much_work) return false;
      if (outcome == ActiveSet::Outcome::optimal) mark_moved();
    }
  return true;
}

bool Hierarchy::feasible(const Problem &problem) {
  if (!begin(problem, nullptr)) return true;
  build_constraints(LimitsAre::left_out);
  return solve_level(no_wishes_) != ActiveSet::Outcome::infeasible;
}

const Solution &Hierarchy::too_much_work() {
  solution_.status = Status::too_much_work;
  return solution_;
}

const Solution &Hierarchy::solve(const Problem &problem, Wanted wanted, const Elimination *start) {
  if (count_.spent() || !begin(problem, start)) return too_much_work();
  solution_.status = Status::optimal;
  solution_.loose.assign(problem.unknowns, 0);
  const bool everything = wanted == Wanted::everything;
  for (Multipliers &multipliers : solution_.levels)
    clear(multipliers);
  bool limits_settled = false;
  int last_level = -1;
  for (int level = 0; level < wish_levels; ++level) {
    const Rows &wishes = problem.wishes[level];
    if (wishes.size() == 0 && (limits_settled || wishes_after(level))) continue;
    build_constraints(LimitsAre::hard);
    ActiveSet::Outcome outcome = solve_level(wishes);
    if (outcome == ActiveSet::Outcome::infeasible && !limits_settled) {
      // Without limits or wishes it was level 0 alone that was asked for.
      if (problem.limits.size() == 0 && wishes.size() == 0) {
        give_contradiction();
        return solution_;
      }
      // Either level 0 cannot hold, or the limits cannot all hold with it.
      if (!meet_limits_as_far_as_possible()) return solution_;
      if (largest(solution_.violation) > 0) {
        find_gradient(no_wishes_, true);
        if (everything) {
          size_multipliers(solution_.levels[0], 0);
          give_multipliers(solution_.levels[0]);
        }
        if (!hold_violated_limits()) return too_much_work();
      }
      build_constraints(LimitsAre::hard);
      outcome = solve_level(wishes);
    }
    if (outcome == ActiveSet::Outcome::too_much_work) return too_much_work();
    if (outcome != ActiveSet::Outcome::optimal) solution_.status = Status::stalled;
    limits_settled = true;
    if (wishes.size() == 0) break; // the proximal term alone chose the point: no level has multipliers for that
    const bool last = !wishes_after(level);
    if (last && !everything) break;
    find_gradient(wishes, false);
    if (everything) {
      size_multipliers(solution_.levels[level + 1], level);
      give_multipliers(solution_.levels[level + 1]);
      make_good(level + 1);
    }
    last_level = level;
    if (!last && !hold_level(level)) return too_much_work();
  }
  solution_.x.assign(reduction_.point().begin(), reduction_.point().end());
  if (!everything || (regular_ && last_level >= 0)) return solution_; // a regular level leaves nothing open
  if (last_level >= 0 && !hold_level(last_level)) return too_much_work();
  if (!find_loose()) return too_much_work();
  return solution_;
}

} // namespace gatherwright::optimum
