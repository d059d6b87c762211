// SPDX-License-Identifier: GPL-3.0-or-later
#include "optimum/active_set.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace gatherwright::optimum {

namespace {

/// A normal whose part outside the active ones is less than this share of it depends on them. Orthogonalised twice, an
/// exactly dependent normal keeps a few units of rounding (1e-15); 1e-11 leaves room for the rounding of the rows
/// themselves.
constexpr double dependent_share = 1e-11;

/// A row that depends on others agrees with them where it is violated by no more than this share of the numbers in it.
constexpr double agreement = 1e-9;

/// A slack is a sum of a few products, each rounded at 1e-16 of `magnitude`; a thousand times that is still nothing on
/// cloth.
constexpr double slack_rounding = 1e-13;

} // namespace

double ActiveSet::slack(int constraint) const {
  const RowView &row = constraints_->rows[constraint];
  double sum = -constraints_->bound[constraint];
  for (std::size_t k = 0; k < row.columns.size(); ++k)
    sum += row.values[k] * y_[row.columns[k]];
  return sum;
}

bool ActiveSet::within_rounding(int constraint, double violation, double tolerance) const {
  const double numbers = constraints_->norm[constraint] * magnitude_ + std::abs(constraints_->bound[constraint]);
  return std::abs(violation) <= tolerance * numbers;
}

ActiveSet::Outcome ActiveSet::solve(const ArrowFactor &factor, const Constraints &constraints, double magnitude) {
  factor_ = &factor;
  constraints_ = &constraints;
  magnitude_ = magnitude;
  const int unknowns = factor.size();
  const int most = std::min(unknowns, constraints.size());
  if (basis_.rows() != unknowns || basis_.cols() < most) basis_.resize(unknowns, most);
  if (triangle_.rows() < most) triangle_.resize(most, most);
  for (Eigen::VectorXd *vector : {&y_, &v_, &normal_, &residue_, &move_})
    vector->resize(unknowns);
  for (Eigen::VectorXd *vector : {&dual_, &coefficients_, &correction_, &dual_step_})
    vector->resize(most + 1);
  active_.assign(most, -1);
  part_.assign(constraints.size(), Part::waiting);
  any_implied_ = false;
  sign_.assign(constraints.size(), 1.0);
  multipliers_.assign(constraints.size(), 0.0);
  active_count_ = 0;
  changes_ = 0;
  v_.setZero();
  factor.solve(factor.right_side(), {y_.data(), static_cast<std::size_t>(unknowns)});
  const Outcome outcome = add_equalities();
  equality_count_ = active_count_;
  return outcome == Outcome::optimal ? add_violated() : outcome;
}

ActiveSet::Outcome ActiveSet::add_equalities() {
  for (int i = 0; i < constraints_->equalities; ++i) {
    const Outcome outcome = add(i);
    if (outcome != Outcome::optimal) return outcome;
  }
  return Outcome::optimal;
}

ActiveSet::Outcome ActiveSet::add_violated() {
  const int limit = 100 + 50 * (constraints_->size() + factor_->size());
  for (int next = most_violated(); next >= 0; next = most_violated()) {
    if (changes_ > limit) {
      fill_multipliers(-1, 0);
      return Outcome::stalled;
    }
    const Outcome outcome = add(next);
    if (outcome != Outcome::optimal) return outcome;
  }
  fill_multipliers(-1, 0);
  return Outcome::optimal;
}

ActiveSet::Outcome ActiveSet::solve_again() {
  std::fill(part_.begin(), part_.end(), Part::waiting);
  for (int j = 0; j < active_count_; ++j)
    part_[active_[j]] = Part::active;
  begin_again();
  return add_violated();
}

/// The point and multipliers of the present active set for a new right side; inequalities whose multiplier would be
/// negative leave first, since the method keeps every multiplier at 0 or above.
void ActiveSet::begin_again() {
  const auto right = Eigen::Map<const Eigen::VectorXd>(factor_->right_side().data(), factor_->size());
  for (;;) {
    const int q = active_count_;
    auto wanted = coefficients_.head(q);
    for (int j = 0; j < q; ++j) {
      // Column j of basis * triangle is the signed normal R^-T n: its product with d is taken from the factors.
      const double on_right = (basis_.leftCols(j + 1) * triangle_.col(j).head(j + 1)).dot(right);
      wanted[j] = sign_[active_[j]] * constraints_->bound[active_[j]] - on_right;
    }
    triangle_.topLeftCorner(q, q).triangularView<Eigen::Upper>().transpose().solveInPlace(wanted);
    v_.noalias() = basis_.leftCols(q) * wanted;
    dual_.head(q) = wanted;
    triangle_.topLeftCorner(q, q).triangularView<Eigen::Upper>().solveInPlace(dual_.head(q));
    int worst = -1;
    for (int j = 0; j < q; ++j)
      if (active_[j] >= constraints_->equalities && dual_[j] < 0 && (worst < 0 || dual_[j] < dual_[worst])) worst = j;
    if (worst < 0) break;
    drop(worst);
  }
  residue_ = v_ + right;
  factor_->solve({residue_.data(), static_cast<std::size_t>(residue_.size())},
                 {y_.data(), static_cast<std::size_t>(y_.size())});
}

int ActiveSet::most_violated() const {
  int worst = -1;
  double worst_violation = 0;
  for (int i = constraints_->equalities; i < constraints_->size(); ++i) {
    if (part_[i] != Part::waiting) continue;
    const double violation = -slack(i);
    if (violation <= 0 || violation <= worst_violation * constraints_->norm[i]) continue;
    if (within_rounding(i, violation, slack_rounding)) continue;
    worst = i;
    worst_violation = violation / constraints_->norm[i];
  }
  return worst;
}

/// normal_ = R^-T n with its sign; coefficients_ = its part along the active normals; residue_ = what is left.
void ActiveSet::project(int constraint) {
  factor_->solve_transposed(constraints_->rows[constraint], {normal_.data(), static_cast<std::size_t>(normal_.size())},
                            support_);
  if (sign_[constraint] < 0) normal_ = -normal_;
  const int q = active_count_;
  auto along = coefficients_.head(q);
  if (support_.size() * 4 < static_cast<std::size_t>(normal_.size())) {
    along.setZero();
    for (const int i : support_)
      along += normal_[i] * basis_.row(i).head(q).transpose();
  } else {
    along.noalias() = basis_.leftCols(q).transpose() * normal_;
  }
  residue_ = normal_;
  residue_.noalias() -= basis_.leftCols(q) * along;
  // Twice is enough (Daniel, Gragg, Kaufman & Stewart, Math. Comp. 30 (1976) 772-795), and once where little was taken
  // away.
  if (residue_.squaredNorm() < 0.5 * normal_.squaredNorm()) {
    auto again = correction_.head(q);
    again.noalias() = basis_.leftCols(q).transpose() * residue_;
    residue_.noalias() -= basis_.leftCols(q) * again;
    along += again;
  }
}

ActiveSet::Outcome ActiveSet::add(int constraint) {
  const bool equality = constraint < constraints_->equalities;
  double entering = 0;
  double missing = -slack(constraint);
  if (equality && missing < 0) {
    sign_[constraint] = -1;
    missing = -missing;
  }
  for (;;) {
    project(constraint);
    const int q = active_count_;
    const double square = residue_.squaredNorm();
    const bool depends = square <= dependent_share * dependent_share * normal_.squaredNorm() || q == factor_->size();
    if (depends && (missing <= 0 || within_rounding(constraint, missing, agreement))) {
      // Redundant: it agrees with those already held. A multiplier gathered on the way is spread over them again.
      part_[constraint] = Part::implied;
      any_implied_ = true;
      if (entering > 0) {
        triangle_.topLeftCorner(q, q).triangularView<Eigen::Upper>().solveInPlace(coefficients_.head(q));
        dual_.head(q) += entering * coefficients_.head(q);
      }
      return Outcome::optimal;
    }
    dual_step_.head(q) = coefficients_.head(q);
    triangle_.topLeftCorner(q, q).triangularView<Eigen::Upper>().solveInPlace(dual_step_.head(q));
    double step = depends ? std::numeric_limits<double>::infinity() : missing / square;
    int leaving = -1;
    for (int j = 0; j < q; ++j) {
      if (active_[j] < constraints_->equalities || dual_step_[j] <= 0) continue;
      const double reach = std::max(dual_[j], 0.0) / dual_step_[j];
      if (reach < step) {
        step = reach;
        leaving = j;
      }
    }
    if (std::isinf(step)) {
      fill_multipliers(constraint, 1);
      return Outcome::infeasible;
    }
    ++changes_;
    entering += step;
    dual_.head(q) -= step * dual_step_.head(q);
    if (!depends) move(step);
    if (leaving < 0) {
      append(constraint, entering, square);
      return Outcome::optimal;
    }
    drop(leaving);
    missing = -sign_[constraint] * slack(constraint);
    if (missing <= 0) missing = 0;
  }
}

void ActiveSet::move(double step) {
  v_ += step * residue_;
  factor_->solve({residue_.data(), static_cast<std::size_t>(residue_.size())},
                 {move_.data(), static_cast<std::size_t>(move_.size())});
  y_ += step * move_;
}

void ActiveSet::append(int constraint, double multiplier, double normal_square) {
  const int q = active_count_;
  const double length = std::sqrt(normal_square);
  basis_.col(q) = residue_ / length;
  triangle_.col(q).head(q) = coefficients_.head(q);
  triangle_(q, q) = length;
  dual_[q] = multiplier;
  active_[q] = constraint;
  part_[constraint] = Part::active;
  ++active_count_;
}

/// Takes the constraint at `position` out: its column goes, and rotations of neighbouring rows make the rest upper
/// triangular.
void ActiveSet::drop(int position) {
  const int last = active_count_ - 1;
  part_[active_[position]] = Part::waiting;
  if (any_implied_) std::replace(part_.begin(), part_.end(), Part::implied, Part::waiting);
  any_implied_ = false;
  for (int j = position; j < last; ++j) {
    triangle_.col(j).head(j + 2) = triangle_.col(j + 1).head(j + 2);
    dual_[j] = dual_[j + 1];
    active_[j] = active_[j + 1];
  }
  for (int j = position; j < last; ++j) {
    const double upper = triangle_(j, j);
    const double lower = triangle_(j + 1, j);
    const double r = std::hypot(upper, lower);
    if (r == 0) continue;
    const double cosine = upper / r;
    const double sine = lower / r;
    for (int k = j; k < last; ++k) {
      const double u = triangle_(j, k);
      const double l = triangle_(j + 1, k);
      triangle_(j, k) = cosine * u + sine * l;
      triangle_(j + 1, k) = cosine * l - sine * u;
    }
    for (Eigen::Index i = 0; i < basis_.rows(); ++i) {
      const double u = basis_(i, j);
      const double l = basis_(i, j + 1);
      basis_(i, j) = cosine * u + sine * l;
      basis_(i, j + 1) = cosine * l - sine * u;
    }
  }
  --active_count_;
  ++changes_;
}

void ActiveSet::fill_multipliers(int entering, double entering_multiplier) {
  std::fill(multipliers_.begin(), multipliers_.end(), 0.0);
  for (int j = 0; j < active_count_; ++j) {
    const int i = active_[j];
    multipliers_[i] = sign_[i] * (entering >= 0 ? -dual_step_[j] : dual_[j]);
  }
  if (entering >= 0) multipliers_[entering] = sign_[entering] * entering_multiplier;
}

} // namespace gatherwright::optimum
