// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/active_set.hpp"

#include "solver/optimum/dense.hpp"
#include "solver/optimum/tolerances.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace gatherwright::optimum {

namespace {

/// Where the worst of the candidates misses less than this share of what the worst missed when all were looked at,
/// others may miss more: adding those first saves a third of the changes, and looking costs less than one change.
constexpr double stale = 0.3;

/// So many constraints may be tried at once to begin with: as many as there are.
constexpr int any_number = std::numeric_limits<int>::max() / 2;

/// After so many at most that are added one at a time, several are tried again.
constexpr int most_alone = 31;

/// Steps of equalities are kept as long as they have no more numbers than this together.
constexpr std::size_t most_in_steps = 20000;

} // namespace

bool ActiveSet::is_too_much() const {
  if (active() > most_active) count_.lack(Work::Bound::active);
  return active() > most_active || count_.spent();
}

/// The size of the numbers that a constraint's slack is made from.
inline double ActiveSet::numbers(int constraint) const {
  const ReducedRows::Row &row = constraints_->rows[constraint];
  return row.norm * magnitude_ + std::abs(row.rest);
}

/// What the constraint misses at the point, less what its own multiplier gives.
inline double ActiveSet::missing(int constraint, double multiplier) const {
  const ReducedRows::Row &row = constraints_->rows[constraint];
  const double value = constraints_->rows.missed(row, y_.data());
  return soft(constraint) ? value - multiplier : value;
}

ActiveSet::Outcome ActiveSet::solve(const ArrowFactor &factor, const Constraints &constraints, double magnitude) {
  if (factor.too_large() || count_.spent()) return Outcome::too_much_work;
  factor_ = &factor;
  constraints_ = &constraints;
  magnitude_ = magnitude;
  tolerance_ = tolerance::slack_rounding;
  const std::size_t unknowns = factor.size();
  for (std::vector<double> *vector : {&y_, &left_, &step_, &taken_, &taken_step_})
    vector->resize(unknowns);
  sparse_step_.resize(unknowns);
  part_.assign(constraints.size(), Part::waiting);
  multipliers_.clear();
  any_implied_ = false;
  candidates_.clear();
  active_.clear();
  dual_.clear();
  triangle_.clear();
  changes_ = 0;
  equalities_ = 0;
  at_once_ = any_number;
  alone_ = last_alone_ = 0;
  known_steps_ = 0;
  factor.solve(factor.right_side(), y_);
  const Outcome outcome = add_equalities();
  return outcome == Outcome::optimal ? add_violated() : outcome;
}

ActiveSet::Outcome ActiveSet::solve_again(std::span<const double> moved) {
  std::fill(part_.begin(), part_.end(), Part::waiting);
  for (const int i : active_)
    part_[i] = Part::active;
  any_implied_ = false;
  changes_ = 0;
  tolerance_ = tolerance::slack_rounding;
  follow(moved);
  return add_violated();
}

ActiveSet::Outcome ActiveSet::add_equalities() {
  for (int i = 0; i < constraints_->equalities; ++i) {
    if (is_too_much()) return Outcome::too_much_work;
    project(i);
    double missed = missing(i, 0);
    if (depends_on_active(i)) {
      part_[i] = Part::implied;
      settle(2);
      missed = missing(i, 0);
      if (std::abs(missed) <= tolerance::agreement * numbers(i)) continue;
      fill_contradiction(i, missed > 0 ? 1 : -1);
      return Outcome::infeasible;
    }
    const double step = missed / left_square_;
    step_by(step, true);
    append(i, step);
    note_step(i);
  }
  equalities_ = active();
  return Outcome::optimal;
}

ActiveSet::Outcome ActiveSet::add_violated() {
  const int patience = 4 * (constraints_->size() + factor_->size()) + 40;
  // Each look at the settled point is one round; more than a few would mean that settling undoes what adding did.
  for (int round = 0; round < 4; ++round) {
    const int before = changes_;
    for (int next = most_violated(); next >= 0; next = most_violated()) {
      const Outcome outcome = add_at_once() ? Outcome::optimal : add(next);
      if (outcome != Outcome::optimal) return outcome;
      if (is_too_much()) return Outcome::too_much_work;
      if (changes_ <= patience) continue;
      if (tolerance_ >= tolerance::most_slack_rounding) {
        fill_multipliers();
        return Outcome::stalled;
      }
      tolerance_ *= 10;
      changes_ = 0;
    }
    if (!settle(2) || (changes_ == before && round > 0)) break;
  }
  fill_multipliers();
  return Outcome::optimal;
}

/// Whether a constraint that is waiting is violated, by so much, beyond rounding.
inline bool ActiveSet::is_violated(int constraint, const ReducedRows::Row &row, double missed) const {
  return part_[constraint] == Part::waiting && missed > tolerance_ * (row.norm * magnitude_ + std::abs(row.rest));
}

/// Any violated constraint may be added next, the most violated (over its norm) serves best. All are looked at
/// when what is left of those violated when all were looked at last is none or little.
int ActiveSet::most_violated() {
  const ReducedRows &rows = constraints_->rows;
  int worst = -1;
  most_ = 0;
  std::size_t kept = 0;
  for (const Candidate &candidate : candidates_) {
    const int i = candidate.constraint;
    const ReducedRows::Row &row = rows[i];
    const double missed = rows.missed(row, y_.data());
    if (!(missed > 0) || !is_violated(i, row, missed)) continue;
    const double over_norm = missed / row.norm;
    candidates_[kept++] = {i, missed, over_norm};
    if (over_norm <= most_) continue;
    most_ = over_norm;
    worst = i;
  }
  candidates_.resize(kept);
  return worst >= 0 && most_ >= stale * most_at_look_ ? worst : look_at_all();
}

/// The most violated of all inequalities; those that are violated are candidates from now on. The rows' terms stand one
/// after another: most rows are done with as soon as they are passed.
int ActiveSet::look_at_all() {
  const ReducedRows &rows = constraints_->rows;
  const double *y = y_.data();
  count_.add(static_cast<std::int64_t>(rows.all_terms().size()) + rows.size());
  candidates_.clear();
  magnitude_ = std::max(magnitude_, largest(y_));
  int worst = -1;
  double most = 0;
  const ReducedRows::Row *const first = rows.all().data();
  const ReducedRows::Row *const end = first + rows.size();
  const Term *const terms = rows.terms();
  const ReducedRows::Row *row = first + constraints_->equalities;
  for (const Term *term = row != end ? terms + row->first : terms; row != end; ++row) {
    const Term *const after = terms + row->end;
    const double missed = ReducedRows::missed(*row, term, after, y);
    term = after;
    if (!(missed > 0)) continue;
    const int i = static_cast<int>(row - first);
    if (!is_violated(i, *row, missed)) continue;
    const double over_norm = missed / row->norm;
    candidates_.push_back({i, missed, over_norm});
    if (over_norm <= most) continue;
    most = over_norm;
    worst = i;
  }
  most_ = most_at_look_ = most;
  return worst;
}

/// row += sign times the sum of `by` times the active rows.
inline void ActiveSet::add_active_to(std::span<double> row, std::span<const double> by, double sign) const {
  const ReducedRows &rows = constraints_->rows;
  for (std::size_t k = 0; k < by.size(); ++k) {
    const double times = sign * by[k];
    if (times == 0) continue;
    for (const Term &term : rows.view(active_[k]).terms)
      row[term.column] += times * term.value;
  }
}

/// What soft constraints' own give adds to the square of what is left of a normal.
inline double ActiveSet::square_of_give(int constraint) const {
  if (constraints_->soft_from == constraints_->size()) return 0;
  double square = soft(constraint) ? 1 : 0;
  for (std::size_t k = 0; k < active_.size(); ++k)
    if (soft(active_[k])) square += combination_[k] * combination_[k];
  return square;
}

/// Room for one number for each active constraint.
inline std::span<double> ActiveSet::one_each(std::vector<double> &room) const {
  if (room.size() < active_.size()) room.resize(2 * active_.size() + 8);
  return std::span(room).first(active_.size());
}

/// Splits a constraint's normal into its part along the active ones and what is left of it.
void ActiveSet::project(int constraint) {
  const std::size_t q = active_.size();
  const RowView row = constraints_->rows.view(constraint);
  normal_square_ = factor_->solve_both(row, left_, step_) + (soft(constraint) ? 1 : 0);
  left_square_ = normal_square_;
  const std::span<double> along = one_each(along_);
  const std::span<double> combination = one_each(combination_);
  if (q == 0) return;
  const bool meets = times_active(row, step_.data(), along);
  if (meets) solve_triangle_transposed(along);
  std::copy(along.begin(), along.end(), combination.begin());
  if (!meets) return;
  solve_triangle(combination);
  // The row itself less its part along the active rows: where a weak pivot makes much of both, they cancel here.
  std::fill(left_.begin(), left_.end(), 0.0);
  for (const Term &term : row.terms)
    left_[term.column] = term.value;
  add_active_to(left_, combination, -1);
  left_square_ = factor_->solve_both(left_, step_) + square_of_give(constraint);
  // Twice is enough (Daniel, Gragg, Kaufman & Stewart, Math. Comp. 30 (1976) 772-795), and once where little was taken
  // away; a third time where so little is left that the second took away rounding alone.
  for (const double enough : {tolerance::much_left, tolerance::little_left}) {
    if (left_square_ >= enough * normal_square_ || !take_active_part_away()) return;
    left_square_ = square_of_give(constraint);
    for (const double c : left_)
      left_square_ += c * c;
  }
}

/// Whether what is left of the normal at hand is no more than rounding.
bool ActiveSet::depends_on_active(int constraint) {
  if (soft(constraint)) return false;
  if (constraints_->soft_from == constraints_->size() && active() == factor_->size()) return true;
  // A row reduced to less than dependent_share of itself is none, so here at most all of it is lost.
  if (left_square_ > tolerance::much_left * normal_square_) return false;
  double square = 0;
  for (const Term &term : constraints_->rows.view(constraint).terms)
    square += term.value * term.value;
  const double norm = std::max(constraints_->rows[constraint].norm, std::sqrt(square));
  if (left_square_ <= tolerance::little_left * normal_square_) {
    double numbers = norm;
    const double left = left_of_row(constraint, numbers);
    nearly_parallel_ =
        nearly_parallel_ || (tolerance::is_nearly_parallel(left, norm) && left > tolerance::row_rounding * numbers);
  }
  if (left_square_ * square <= tolerance::dependent_share * tolerance::dependent_share * norm * norm * normal_square_)
    return true;
  return left_square_ <= tolerance::little_left * normal_square_ && is_made_of_active(constraint, std::sqrt(square));
}

/// The length of the row less the combination of active ones nearest to it; `numbers` grows by those in it.
double ActiveSet::left_of_row(int constraint, double &numbers) {
  std::fill(taken_.begin(), taken_.end(), 0.0);
  for (const Term &term : constraints_->rows.view(constraint).terms)
    taken_[term.column] = term.value;
  add_active_to(taken_, std::span(combination_).first(active_.size()), -1);
  for (std::size_t k = 0; k < active_.size(); ++k)
    numbers += std::abs(combination_[k]) * constraints_->rows[active_[k]].norm;
  double square = square_of_give(constraint);
  for (const double c : taken_)
    square += c * c;
  return std::sqrt(square);
}

/// Whether the row, of that Euclidean length, is a combination of the active ones, but for rounding. In the factor's
/// space that may not be seen: there a proximal term makes the rounding of some directions a hundred thousand times as
/// long as others.
bool ActiveSet::is_made_of_active(int constraint, double length) {
  double numbers = length;
  const double left = left_of_row(constraint, numbers);
  return left <= tolerance::row_rounding * numbers;
}

/// The active rows times the step that a row makes, which is what their steps give along the row. False: all of them
/// are 0.
inline bool ActiveSet::times_active(const RowView &row, const double *step, std::span<double> values) const {
  const ReducedRows &rows = constraints_->rows;
  bool any = false;
  count_.add(3 * static_cast<std::int64_t>(values.size()));
  const std::size_t known = std::min(known_steps_, values.size());
  for (std::size_t k = 0; k < known; ++k) {
    const double *const of_active = steps_.data() + k * y_.size();
    double sum = 0;
    for (const Term &term : row.terms)
      sum += term.value * of_active[term.column];
    values[k] = sum;
    any = any || sum != 0;
  }
  for (std::size_t k = known; k < values.size(); ++k) {
    values[k] = rows.times(rows[active_[k]], step);
    any = any || values[k] != 0;
  }
  return any;
}

/// Notes the step that the equality added last makes, as long as there are few of them and steps are cheap to find.
void ActiveSet::note_step(int constraint) {
  const std::size_t n = y_.size();
  if (!factor_->is_diagonal() || known_steps_ + 1 != active_.size() || active_.size() * n > most_in_steps) return;
  if (steps_.size() < active_.size() * n) steps_.resize(active_.size() * n);
  const std::span<double> step = std::span(steps_).subspan(known_steps_ * n, n);
  if (known_steps_ == 0)
    std::copy(step_.begin(), step_.end(), step.begin()); // nothing was taken from it
  else
    factor_->solve_both(constraints_->rows.view(constraint), left_, step);
  ++known_steps_;
}

/// The active rows times y. False: all of them are 0.
inline bool ActiveSet::times_active(const double *y, std::span<double> values) const {
  const ReducedRows &rows = constraints_->rows;
  bool any = false;
  count_.add(3 * static_cast<std::int64_t>(values.size()));
  for (std::size_t k = 0; k < values.size(); ++k) {
    values[k] = rows.times(rows[active_[k]], y);
    any = any || values[k] != 0;
  }
  return any;
}

/// Takes what is still along the active normals away: it is small by now, and so is its rounding. False: there is
/// nothing.
bool ActiveSet::take_active_part_away() {
  const std::size_t q = active_.size();
  const std::span<double> correction = one_each(correction_);
  bool any = times_active(step_.data(), correction);
  if (constraints_->soft_from < constraints_->size())
    for (std::size_t k = 0; k < q; ++k)
      if (soft(active_[k])) {
        correction[k] -= combination_[k];
        any = any || correction[k] != 0;
      }
  if (!any) return false;
  solve_triangle_transposed(correction);
  for (std::size_t k = 0; k < q; ++k)
    along_[k] += correction[k];
  solve_triangle(correction);
  for (std::size_t k = 0; k < q; ++k)
    combination_[k] += correction[k];
  std::fill(taken_.begin(), taken_.end(), 0.0);
  add_active_to(taken_, correction, 1);
  factor_->solve_both(taken_, taken_step_);
  for (std::size_t c = 0; c < taken_.size(); ++c) {
    left_[c] -= taken_[c];
    step_[c] -= taken_step_[c];
  }
  return true;
}

/// Which active inequality's multiplier reaches 0 first as the entering one's grows, within `step`; -1: none does.
int ActiveSet::blocking(double &step) const {
  if (active() == equalities_) return -1;
  double nothing = 0;
  const ReducedRows &rows = constraints_->rows;
  for (std::size_t k = 0; k < active_.size(); ++k)
    nothing = std::max(nothing, std::abs(combination_[k]) * rows[active_[k]].norm);
  nothing *= tolerance::no_share;
  int leaving = -1;
  for (std::size_t k = equalities_; k < active_.size(); ++k) {
    if (combination_[k] * rows[active_[k]].norm <= nothing) continue;
    const double reach = std::max(dual_[k], 0.0) / combination_[k];
    if (reach >= step) continue;
    step = reach;
    leaving = static_cast<int>(k);
  }
  return leaving;
}

/// The entering constraint's multiplier grows by a step: the others' change, and where it moves, so does the point.
inline void ActiveSet::step_by(double step, bool moves) {
  add_times(dual_.data(), combination_.data(), -step, dual_.size());
  if (moves) add_times(y_.data(), step_.data(), step, y_.size());
}

/// The constraint depends on the active ones and agrees: what multiplier it gathered on the way is spread over them.
void ActiveSet::imply(int constraint, double multiplier) {
  part_[constraint] = Part::implied;
  any_implied_ = true;
  if (multiplier > 0)
    for (std::size_t k = 0; k < active_.size(); ++k)
      dual_[k] += multiplier * combination_[k];
}

/// Whether what a constraint misses may be no more than the rounding of the active rows that its value is made of.
bool ActiveSet::is_rounding_of_active(int constraint, double missed) const {
  double made_of = numbers(constraint);
  for (std::size_t k = 0; k < active_.size(); ++k)
    made_of += std::abs(combination_[k]) * numbers(active_[k]);
  return missed <= tolerance::roundings * tolerance::rounding * made_of;
}

ActiveSet::Outcome ActiveSet::add(int constraint) {
  double entering = 0;
  for (;;) {
    count_.add(8 * static_cast<std::int64_t>(active_.size()));
    project(constraint);
    double missed = std::max(missing(constraint, entering), 0.0);
    const bool depends = depends_on_active(constraint);
    if (depends && missed <= tolerance::unsettled * numbers(constraint) &&
        missed > tolerance::agreement * numbers(constraint)) {
      settle(2);
      missed = std::max(missing(constraint, entering), 0.0);
    }
    if (depends && missed <= tolerance::agreement * numbers(constraint)) {
      imply(constraint, entering);
      return Outcome::optimal;
    }
    if (entering == 0 && !depends && missed <= tolerance::perhaps_rounding * numbers(constraint) &&
        is_rounding_of_active(constraint, missed)) {
      imply(constraint, 0);
      return Outcome::optimal;
    }
    double step = depends ? std::numeric_limits<double>::infinity() : missed / left_square_;
    const int leaving = blocking(step);
    if (std::isinf(step)) {
      fill_contradiction(constraint, 1);
      return Outcome::infeasible;
    }
    ++changes_;
    entering += step;
    step_by(step, !depends);
    if (leaving < 0) {
      append(constraint, entering);
      return Outcome::optimal;
    }
    drop(leaving);
  }
}

/// Adds the worst of the candidates one after another, and lets the point and the multipliers follow once. By how much
/// each is missed with those before it met is known from its column of the triangle alone, so all are added that the
/// method would add, worst first, but for those that leave one of the multipliers below 0. False: there is none.
/// Where most that were tried cannot be added, fewer are tried the next time, and where none can, none are for a while:
/// so trying costs no more than adding. Nor are any where a step is no cheaper to find than the rest of a change: steps
/// of what is tried in vain would be lost.
bool ActiveSet::add_at_once() {
  if (!factor_->is_diagonal()) return false;
  if (alone_ > 0) {
    --alone_;
    return false;
  }
  count_.add(static_cast<std::int64_t>(candidates_.size()));
  std::sort(candidates_.begin(), candidates_.end(), [](const Candidate &a, const Candidate &b) {
    return a.over_norm > b.over_norm || (a.over_norm == b.over_norm && a.constraint < b.constraint);
  });
  const int before = active();
  ahead_.assign(before, 0.0);
  int tried = 0;
  for (const Candidate &candidate : candidates_) {
    if (candidate.over_norm < stale * most_ || tried == at_once_ || is_too_much()) break;
    append_if_missed(candidate);
    ++tried;
  }
  const int kept = longest_start(before);
  at_once_ = 2 * std::max(2 * kept < tried ? kept : std::min(at_once_, any_number), 1);
  alone_ = last_alone_ = kept > 0 ? 0 : std::min(2 * last_alone_ + 1, most_alone);
  for (; active() > before + kept; active_.pop_back(), dual_.pop_back())
    part_[active_.back()] = Part::waiting;
  triangle_.keep_first(active());
  if (kept == 0) return false;
  const std::span<const double> by = one_each(correction_);
  for (std::size_t k = 0; k < by.size(); ++k)
    dual_[k] += by[k];
  move_by(by);
  changes_ += kept;
  return true;
}

/// Appends a constraint that is missed even with those met that are appended already, as long as it is clear that it is
/// missed, and that it is independent. Its multiplier is found later: what it misses, over the length of what is left
/// of its normal, is ahead of that. Not soft ones: where these are, a proximal term alone makes the normals, ten
/// thousand times as long as their give, and no more of a column is right than `project` corrects.
void ActiveSet::append_if_missed(const Candidate &candidate) {
  const int constraint = candidate.constraint;
  if (soft(constraint)) return;
  const RowView row = constraints_->rows.view(constraint);
  const double square = factor_->step_along(row, sparse_step_);
  const std::span<double> along = one_each(along_);
  times_active(row, sparse_step_.data(), along);
  factor_->clear_step(row, sparse_step_);
  double left = square;
  double missed = candidate.missed;
  const std::size_t met = triangle_.solve_transposed(along, [&](std::size_t k, double part) {
    left -= part * part;
    missed -= part * ahead_[k];
  });
  count_.add(static_cast<std::int64_t>(met * met / 4 + 2 * met));
  if (!(left > tolerance::clearly_left * square) || !(missed > 0)) return;
  if (missed <= tolerance::perhaps_rounding * numbers(constraint)) {
    const std::span<double> combination = one_each(combination_);
    std::copy(along.begin(), along.end(), combination.begin());
    solve_triangle(combination);
    if (is_rounding_of_active(constraint, missed)) return;
  }
  left_square_ = left;
  ahead_.push_back(missed * append(constraint, 0));
}

/// Of the constraints appended since there were so many `before`, how many can stay, the first of them first, so that
/// no multiplier is below 0. What they change of the multipliers is left in correction_.
int ActiveSet::longest_start(int before) {
  int good = 0;
  int bad = active() - before + 1;
  int solved = 0;
  for (int tried = bad - 1; tried > good; tried = (good + bad) / 2) {
    (solve_start(before + tried) ? good : bad) = tried;
    solved = tried;
  }
  if (good > 0 && solved != good) solve_start(before + good);
  return good;
}

/// Finds what is ahead of the first so many multipliers; false: one would be below 0.
bool ActiveSet::solve_start(int size) {
  const std::span<double> by = one_each(correction_).first(size);
  std::copy_n(ahead_.begin(), size, by.begin());
  solve_triangle(by);
  for (int k = equalities_; k < size; ++k)
    if (dual_[k] + by[k] < 0) return false;
  return true;
}

/// Returns the inverse of the length of what is left of its normal.
inline double ActiveSet::append(int constraint, double multiplier) {
  active_.push_back(constraint);
  dual_.push_back(multiplier);
  part_[constraint] = Part::active;
  return triangle_.append(along_.data(), left_square_);
}

/// Takes the constraint at `position` out.
void ActiveSet::drop(int position) {
  part_[active_[position]] = Part::waiting;
  if (any_implied_) std::replace(part_.begin() + constraints_->equalities, part_.end(), Part::implied, Part::waiting);
  any_implied_ = false;
  const int q = active();
  triangle_.drop(position);
  active_.erase(active_.begin() + position);
  dual_.erase(dual_.begin() + position);
  count_.add(static_cast<std::int64_t>(q - position) * (q - position) + q);
  ++changes_;
}

void ActiveSet::solve_triangle_transposed(std::span<double> c) const {
  const std::size_t met = triangle_.solve_transposed(c, [](std::size_t, double) {});
  count_.add(static_cast<std::int64_t>(met * met / 4));
}

void ActiveSet::solve_triangle(std::span<double> c) const {
  std::size_t end = c.size();
  while (end > 0 && c[end - 1] == 0)
    --end;
  count_.add(static_cast<std::int64_t>(end * end / 2));
  triangle_.solve(c.first(end));
}

/// Moves the point by what `by` more of the active rows' multipliers make: (R'R)^-1 A' by.
void ActiveSet::move_by(std::span<const double> by) {
  std::fill(taken_.begin(), taken_.end(), 0.0);
  add_active_to(taken_, by, 1); // what cancels does so in the rows, before it is scaled
  factor_->add_step(taken_, taken_step_, y_);
}

/// Corrects the multipliers until the active constraints are met to rounding; false: they are already. Point and
/// multipliers are only ever added to: what is added shrinks from round to round, and with it the rounding in it, which
/// a weak pivot makes much of.
bool ActiveSet::settle(int most_rounds) {
  for (int round = 0; round < most_rounds; ++round) {
    double worst = 0;
    const std::span<double> along = one_each(along_);
    for (std::size_t k = 0; k < active_.size(); ++k) {
      along[k] = missing(active_[k], dual_[k]);
      worst = std::max(worst, std::abs(along[k]) - tolerance::roundings * tolerance::rounding * numbers(active_[k]));
    }
    if (worst <= 0) return round > 0;
    solve_triangle_transposed(along);
    solve_triangle(along);
    for (std::size_t k = 0; k < active_.size(); ++k)
      dual_[k] += along[k];
    move_by(along);
  }
  return most_rounds > 0;
}

/// The active inequality whose multiplier is furthest below 0, by more than rounding in the greatest; -1: none is.
int ActiveSet::most_negative() const {
  const ReducedRows &rows = constraints_->rows;
  double greatest = 0;
  for (std::size_t k = 0; k < active_.size(); ++k)
    greatest = std::max(greatest, std::abs(dual_[k]) * rows[active_[k]].norm);
  int worst = -1;
  double least = -tolerance::no_share * greatest;
  for (int k = equalities_; k < active(); ++k)
    if (dual_[k] * rows[active_[k]].norm < least) {
      least = dual_[k] * rows[active_[k]].norm;
      worst = k;
    }
  return worst;
}

/// Lets the point follow the centre, within the active constraints; inequalities whose multiplier would be negative
/// leave, since the method keeps every multiplier at 0 or above.
void ActiveSet::follow(std::span<const double> moved) {
  for (std::size_t c = 0; c < y_.size(); ++c)
    y_[c] += moved[c];
  settle(1);
  for (int worst = most_negative(); worst >= 0; worst = most_negative()) {
    const std::span<double> correction = one_each(correction_);
    std::fill(correction.begin(), correction.end(), 0.0);
    correction[worst] = -dual_[worst];
    move_by(correction);
    drop(worst);
    settle(1);
  }
}

void ActiveSet::fill_multipliers() {
  multipliers_.clear();
  for (std::size_t k = 0; k < active_.size(); ++k)
    multipliers_.push_back({active_[k], static_cast<int>(k) < equalities_ ? dual_[k] : std::max(dual_[k], 0.0)});
}

/// The entering row is a combination of the active ones (soft ones have no part in it): it less the combination is a
/// row of no terms whose bound is above 0.
void ActiveSet::fill_contradiction(int entering, double sign) {
  multipliers_.clear();
  for (std::size_t k = 0; k < active_.size(); ++k) {
    const int i = active_[k];
    if (soft(i)) continue;
    const double multiplier = -sign * combination_[k];
    multipliers_.push_back({i, i < constraints_->equalities ? multiplier : std::max(multiplier, 0.0)});
  }
  multipliers_.push_back({entering, sign});
}

} // namespace gatherwright::optimum
