// SPDX-License-Identifier: GPL-3.0-or-later
#include "optimum/active_set.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace gatherwright::optimum {

namespace {

constexpr double rounding = std::numeric_limits<double>::epsilon();

/// A normal whose part outside the active ones is less than this share of it depends on them. Orthogonalised twice, an
/// exactly dependent normal keeps a few units of rounding (1e-15); 1e-11 leaves room for the rounding of the rows
/// themselves.
constexpr double dependent_share = 1e-11;

/// A row that depends on others agrees with them where it is violated by no more than this share of the numbers in it.
constexpr double agreement = 1e-9;

/// Steps along what only a proximal term holds are rounded at 1e-16 over the square of its weight's share, 1e-5 at
/// least: up to this share a point not yet settled may miss what it would keep.
constexpr double unsettled = 1e-5;

/// A slack is a sum of a few products, each rounded at 1e-16 of `magnitude`; a thousand times that is still nothing on
/// cloth.
constexpr double slack_rounding = 1e-13;

/// Where the set keeps changing for no more than rounding, what counts as a violation grows tenfold, up to this.
constexpr double most_slack_rounding = 1e-10;

/// A share of an active normal in a combination is rounding below this share of the whole: the triangle is solved
/// twice, each time to a few 1e-16.
constexpr double no_share = 1e-13;

/// A square so small a share of the normal's that two roundings of it would be seen in it.
constexpr double little_left = 1e-10;

/// Roundings in a row's value: of its terms, of the point, of the bound.
constexpr double roundings = 16;

double dot(const double *a, const double *b, int count) {
  double sum[4] = {0, 0, 0, 0};
  int i = 0;
  for (; i + 4 <= count; i += 4)
    for (int k = 0; k < 4; ++k)
      sum[k] += a[i + k] * b[i + k];
  for (; i < count; ++i)
    sum[0] += a[i] * b[i];
  return (sum[0] + sum[1]) + (sum[2] + sum[3]);
}

} // namespace

/// The size of the numbers that a constraint's slack is made from.
double ActiveSet::numbers(int constraint) const {
  return constraints_->rows.norm[constraint] * magnitude_ + std::abs(constraints_->rows.rest[constraint]);
}

/// What the constraint misses at the point, less what its own multiplier gives.
double ActiveSet::missing(int constraint, double multiplier) const {
  const double value = constraints_->rows.rest[constraint] - constraints_->rows.view(constraint).times(y_.data());
  return soft(constraint) ? value - multiplier : value;
}

ActiveSet::Outcome ActiveSet::solve(const ArrowFactor &factor, const Constraints &constraints, double magnitude) {
  factor_ = &factor;
  constraints_ = &constraints;
  magnitude_ = magnitude;
  tolerance_ = slack_rounding;
  const std::size_t unknowns = factor.size();
  for (std::vector<double> *vector : {&y_, &left_, &step_, &taken_})
    vector->resize(unknowns);
  part_.assign(constraints.size(), Part::waiting);
  multipliers_.assign(constraints.size(), 0.0);
  any_implied_ = false;
  active_.clear();
  dual_.clear();
  triangle_.clear();
  changes_ = 0;
  equalities_ = 0;
  factor.solve(factor.right_side(), y_);
  return add_equalities() ? add_violated() : Outcome::infeasible;
}

ActiveSet::Outcome ActiveSet::solve_again(std::span<const double> moved) {
  std::fill(part_.begin(), part_.end(), Part::waiting);
  for (const int i : active_)
    part_[i] = Part::active;
  any_implied_ = false;
  changes_ = 0;
  tolerance_ = slack_rounding;
  follow(moved);
  return add_violated();
}

bool ActiveSet::add_equalities() {
  for (int i = 0; i < constraints_->equalities; ++i) {
    project(i);
    double missed = missing(i, 0);
    if (left_square_ <= dependent_share * dependent_share * normal_square_ || active() == factor_->size()) {
      part_[i] = Part::implied;
      settle(2);
      missed = missing(i, 0);
      if (std::abs(missed) <= agreement * numbers(i)) continue;
      fill_contradiction(i, missed > 0 ? 1 : -1);
      return false;
    }
    const double step = missed / left_square_;
    for (std::size_t k = 0; k < active_.size(); ++k)
      dual_[k] -= step * combination_[k];
    for (std::size_t c = 0; c < y_.size(); ++c)
      y_[c] += step * step_[c];
    append(i, step);
  }
  equalities_ = active();
  return true;
}

ActiveSet::Outcome ActiveSet::add_violated() {
  const int patience = 4 * (constraints_->size() + factor_->size()) + 40;
  // Each look at the settled point is one round; more than a few would mean that settling undoes what adding did.
  for (int round = 0; round < 4; ++round) {
    const int before = changes_;
    for (int next = most_violated(); next >= 0; next = most_violated()) {
      const Outcome outcome = add(next);
      if (outcome != Outcome::optimal) return outcome;
      if (changes_ <= patience) continue;
      if (tolerance_ >= most_slack_rounding) {
        fill_multipliers();
        return Outcome::stalled;
      }
      tolerance_ *= 10;
      changes_ = 0;
    }
    settle(2);
    if (changes_ == before && round > 0) break;
  }
  fill_multipliers();
  return Outcome::optimal;
}

int ActiveSet::most_violated() {
  for (const double c : y_)
    magnitude_ = std::max(magnitude_, std::abs(c));
  const ReducedRows &rows = constraints_->rows;
  int worst = -1;
  double worst_violation = 0;
  for (int i = constraints_->equalities; i < rows.size(); ++i) {
    double violation = rows.rest[i];
    for (int k = rows.start[i]; k < rows.start[i + 1]; ++k)
      violation -= rows.values[k] * y_[rows.columns[k]];
    if (violation <= worst_violation * rows.norm[i]) continue;
    if (part_[i] != Part::waiting || violation <= tolerance_ * numbers(i)) continue;
    worst = i;
    worst_violation = violation / rows.norm[i];
  }
  return worst;
}

/// row += sum of `by` times the active rows.
void ActiveSet::add_active_to(std::span<double> row, std::span<const double> by) const {
  const ReducedRows &rows = constraints_->rows;
  for (std::size_t k = 0; k < by.size(); ++k)
    for (int e = rows.start[active_[k]]; e < rows.start[active_[k] + 1]; ++e)
      row[rows.columns[e]] += by[k] * rows.values[e];
}

/// What soft constraints' own give adds to the square of what is left of a normal.
double ActiveSet::square_of_give(int constraint) const {
  if (constraints_->soft_from == constraints_->size()) return 0;
  double square = soft(constraint) ? 1 : 0;
  for (std::size_t k = 0; k < active_.size(); ++k)
    if (soft(active_[k])) square += combination_[k] * combination_[k];
  return square;
}

/// Splits a constraint's normal into its part along the active ones and what is left of it.
void ActiveSet::project(int constraint) {
  const std::size_t q = active_.size();
  normal_square_ = factor_->solve_transposed(constraints_->rows.view(constraint), left_) + (soft(constraint) ? 1 : 0);
  factor_->solve(left_, step_);
  left_square_ = normal_square_;
  along_.assign(q, 0.0);
  combination_.assign(q, 0.0);
  if (q == 0 || !find_active_part()) return;
  // The row itself less its part along the active rows: where a weak pivot makes much of both, they cancel here.
  const RowView row = constraints_->rows.view(constraint);
  std::fill(left_.begin(), left_.end(), 0.0);
  for (std::size_t k = 0; k < row.columns.size(); ++k)
    left_[row.columns[k]] = row.values[k];
  add_active_to(left_, correction_);
  left_square_ = factor_->solve_transposed(left_) + square_of_give(constraint);
  factor_->solve(left_, step_);
  // Twice is enough (Daniel, Gragg, Kaufman & Stewart, Math. Comp. 30 (1976) 772-795), and once where little was taken
  // away; a third time where so little is left that the second took away rounding alone.
  for (const double enough : {0.5, little_left}) {
    if (left_square_ >= enough * normal_square_ || !find_active_part()) return;
    take_active_part_away();
    left_square_ = square_of_give(constraint);
    for (const double c : left_)
      left_square_ += c * c;
  }
}

/// What of the step at hand is along the active normals is added to along_, as a combination of them to combination_,
/// and less that to correction_. False: there is nothing.
bool ActiveSet::find_active_part() {
  const ReducedRows &rows = constraints_->rows;
  const std::size_t q = active_.size();
  correction_.resize(q);
  double met = 0;
  for (std::size_t k = 0; k < q; ++k) {
    correction_[k] = rows.view(active_[k]).times(step_.data());
    if (soft(active_[k])) correction_[k] -= combination_[k];
    met = std::max(met, std::abs(correction_[k]));
  }
  if (met == 0) return false;
  solve_triangle_transposed(correction_);
  for (std::size_t k = 0; k < q; ++k)
    along_[k] += correction_[k];
  solve_triangle(correction_);
  for (std::size_t k = 0; k < q; ++k) {
    combination_[k] += correction_[k];
    correction_[k] = -correction_[k];
  }
  return true;
}

/// Takes it away from what is left: it is small by now, and so is its rounding.
void ActiveSet::take_active_part_away() {
  std::fill(taken_.begin(), taken_.end(), 0.0);
  add_active_to(taken_, correction_);
  factor_->solve_transposed(taken_);
  for (std::size_t c = 0; c < taken_.size(); ++c)
    left_[c] += taken_[c];
  factor_->solve(taken_, taken_);
  for (std::size_t c = 0; c < taken_.size(); ++c)
    step_[c] += taken_[c];
}

/// Which active inequality's multiplier reaches 0 first as the entering one's grows, within `step`; -1: none does.
int ActiveSet::blocking(double &step) const {
  double nothing = 0;
  const ReducedRows &rows = constraints_->rows;
  for (std::size_t k = 0; k < active_.size(); ++k)
    nothing = std::max(nothing, std::abs(combination_[k]) * rows.norm[active_[k]]);
  nothing *= no_share;
  int leaving = -1;
  for (std::size_t k = equalities_; k < active_.size(); ++k) {
    if (combination_[k] * rows.norm[active_[k]] <= nothing) continue;
    const double reach = std::max(dual_[k], 0.0) / combination_[k];
    if (reach >= step) continue;
    step = reach;
    leaving = static_cast<int>(k);
  }
  return leaving;
}

/// The constraint depends on the active ones and agrees: what multiplier it gathered on the way is spread over them.
void ActiveSet::imply(int constraint, double multiplier) {
  part_[constraint] = Part::implied;
  any_implied_ = true;
  if (multiplier > 0)
    for (std::size_t k = 0; k < active_.size(); ++k)
      dual_[k] += multiplier * combination_[k];
}

ActiveSet::Outcome ActiveSet::add(int constraint) {
  double entering = 0;
  for (;;) {
    project(constraint);
    double missed = std::max(missing(constraint, entering), 0.0);
    const bool depends =
        left_square_ <= dependent_share * dependent_share * normal_square_ ||
        (!soft(constraint) && active() == factor_->size() && constraints_->soft_from >= constraints_->size());
    if (depends && missed <= unsettled * numbers(constraint) && missed > agreement * numbers(constraint)) {
      settle(2);
      missed = std::max(missing(constraint, entering), 0.0);
    }
    if (depends && missed <= agreement * numbers(constraint)) {
      imply(constraint, entering);
      return Outcome::optimal;
    }
    if (entering == 0 && !depends) {
      // What it misses may be no more than the rounding of the active rows that its value is made of.
      double made_of = numbers(constraint);
      for (std::size_t k = 0; k < active_.size(); ++k)
        made_of += std::abs(combination_[k]) * numbers(active_[k]);
      if (missed <= roundings * rounding * made_of) {
        imply(constraint, 0);
        return Outcome::optimal;
      }
    }
    double step = depends ? std::numeric_limits<double>::infinity() : missed / left_square_;
    const int leaving = blocking(step);
    if (std::isinf(step)) {
      fill_contradiction(constraint, 1);
      return Outcome::infeasible;
    }
    ++changes_;
    entering += step;
    for (std::size_t k = 0; k < active_.size(); ++k)
      dual_[k] -= step * combination_[k];
    if (!depends)
      for (std::size_t c = 0; c < y_.size(); ++c)
        y_[c] += step * step_[c];
    if (leaving < 0) {
      append(constraint, entering);
      return Outcome::optimal;
    }
    drop(leaving);
  }
}

void ActiveSet::append(int constraint, double multiplier) {
  triangle_.insert(triangle_.end(), along_.begin(), along_.end());
  triangle_.push_back(std::sqrt(left_square_));
  active_.push_back(constraint);
  dual_.push_back(multiplier);
  part_[constraint] = Part::active;
}

/// Takes the constraint at `position` out: its column goes, and rotations of neighbouring rows make the rest upper
/// triangular.
void ActiveSet::drop(int position) {
  part_[active_[position]] = Part::waiting;
  if (any_implied_) std::replace(part_.begin() + constraints_->equalities, part_.end(), Part::implied, Part::waiting);
  any_implied_ = false;
  const int last = active() - 1;
  active_.erase(active_.begin() + position);
  dual_.erase(dual_.begin() + position);
  // along_ and correction_ serve as room for the rotations' cosines and sines.
  along_.resize(last + 1);
  correction_.resize(last + 1);
  for (int j = position; j < last; ++j) {
    const double *from = column(j + 1);
    double *to = column(j);
    std::copy_n(from, position + 1, to);
    double upper = from[position];
    for (int i = position; i < j; ++i) {
      const double lower = from[i + 1];
      to[i] = along_[i] * upper + correction_[i] * lower;
      upper = along_[i] * lower - correction_[i] * upper;
    }
    const double lower = from[j + 1];
    const double length = std::hypot(upper, lower);
    along_[j] = length > 0 ? upper / length : 1;
    correction_[j] = length > 0 ? lower / length : 0;
    to[j] = length;
  }
  triangle_.resize(static_cast<std::size_t>(last) * (last + 1) / 2);
  ++changes_;
}

void ActiveSet::solve_triangle_transposed(std::span<double> c) const {
  for (std::size_t j = 0; j < c.size(); ++j) {
    const double *of = column(static_cast<int>(j));
    c[j] = (c[j] - dot(of, c.data(), static_cast<int>(j))) / of[j];
  }
}

void ActiveSet::solve_triangle(std::span<double> c) const {
  for (std::size_t j = c.size(); j-- > 0;) {
    const double *of = column(static_cast<int>(j));
    const double value = c[j] /= of[j];
    if (value == 0) continue;
    for (std::size_t i = 0; i < j; ++i)
      c[i] -= of[i] * value;
  }
}

/// Moves the point by what `by` more of the active rows' multipliers make: (R'R)^-1 A' by.
void ActiveSet::move_by(std::span<const double> by) {
  std::fill(taken_.begin(), taken_.end(), 0.0);
  add_active_to(taken_, by);
  factor_->solve_transposed(taken_);
  factor_->solve(taken_, taken_);
  for (std::size_t c = 0; c < y_.size(); ++c)
    y_[c] += taken_[c];
}

/// Corrects the multipliers until the active constraints are met to rounding. Point and multipliers are only ever added
/// to: what is added shrinks from round to round, and with it the rounding in it, which a weak pivot makes much of.
void ActiveSet::settle(int most_rounds) {
  for (int round = 0; round < most_rounds; ++round) {
    double worst = 0;
    along_.resize(active_.size());
    for (std::size_t k = 0; k < active_.size(); ++k) {
      along_[k] = missing(active_[k], dual_[k]);
      worst = std::max(worst, std::abs(along_[k]) - roundings * rounding * numbers(active_[k]));
    }
    if (worst <= 0) return;
    solve_triangle_transposed(along_);
    solve_triangle(along_);
    for (std::size_t k = 0; k < active_.size(); ++k)
      dual_[k] += along_[k];
    move_by(along_);
  }
}

/// The active inequality whose multiplier is furthest below 0, by more than rounding in the greatest; -1: none is.
int ActiveSet::most_negative() const {
  const ReducedRows &rows = constraints_->rows;
  double greatest = 0;
  for (std::size_t k = 0; k < active_.size(); ++k)
    greatest = std::max(greatest, std::abs(dual_[k]) * rows.norm[active_[k]]);
  int worst = -1;
  double least = -no_share * greatest;
  for (int k = equalities_; k < active(); ++k)
    if (dual_[k] * rows.norm[active_[k]] < least) {
      least = dual_[k] * rows.norm[active_[k]];
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
    correction_.assign(active_.size(), 0.0);
    correction_[worst] = -dual_[worst];
    move_by(correction_);
    drop(worst);
    settle(1);
  }
}

void ActiveSet::fill_multipliers() {
  std::fill(multipliers_.begin(), multipliers_.end(), 0.0);
  for (std::size_t k = 0; k < active_.size(); ++k)
    multipliers_[active_[k]] = static_cast<int>(k) < equalities_ ? dual_[k] : std::max(dual_[k], 0.0);
}

/// The entering row is a combination of the active ones (soft ones have no part in it): it less the combination is a
/// row of no terms whose bound is above 0.
void ActiveSet::fill_contradiction(int entering, double sign) {
  std::fill(multipliers_.begin(), multipliers_.end(), 0.0);
  for (std::size_t k = 0; k < active_.size(); ++k) {
    const int i = active_[k];
    if (soft(i)) continue;
    multipliers_[i] = i < constraints_->equalities ? -sign * combination_[k] : std::max(-sign * combination_[k], 0.0);
  }
  multipliers_[entering] = sign;
}

} // namespace gatherwright::optimum
