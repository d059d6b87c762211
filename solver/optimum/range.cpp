// SPDX-License-Identifier: GPL-3.0-or-later
#include "optimum/range.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace gatherwright::optimum {

namespace {

/// The point is at rest where a move is no longer than this share of the numbers: a few hundred of their roundings.
constexpr double still = 1e-13;

/// A row gets in the way of a move where it falls by more than this share of the move's length.
constexpr double in_the_way = 1e-9;

constexpr int most_moves = 200;

} // namespace

void Ranges::prepare(const Problem &problem) {
  magnitude_ = 1;
  const auto look = [&](const Rows &rows) {
    for (const double bound : rows.bound)
      magnitude_ = std::max(magnitude_, std::abs(bound));
  };
  look(problem.equal);
  look(problem.at_least);
  reduction_.begin(problem);
  std::vector<RowName> names;
  for (int i = 0; i < problem.equal.size(); ++i)
    names.push_back({RowName::Set::equal, 0, i});
  reduction_.hold(names, problem.equal.bound);
  rows_.clear();
  for (int i = 0; i < problem.at_least.size(); ++i)
    reduction_.reduce(problem.at_least.row(i), problem.at_least.bound[i], rows_);
  constraints_.rows.clear();
  constraints_.bound.clear();
  constraints_.norm.clear();
  const auto take = [&](const ReducedRows &from) {
    for (int i = 0; i < from.size(); ++i) {
      constraints_.rows.push_back(from.view(i, reduction_.layout()));
      constraints_.bound.push_back(from.rest[i]);
      constraints_.norm.push_back(from.norm[i]);
    }
  };
  take(reduction_.held());
  constraints_.equalities = constraints_.size();
  take(rows_);
}

/// The last move can be made again for ever: no row falls along it.
bool Ranges::never_stopped() const {
  double length = 0;
  for (const double s : step_)
    length = std::max(length, std::abs(s));
  for (int i = constraints_.equalities; i < constraints_.size(); ++i) {
    double along = 0;
    const RowView &row = constraints_.rows[i];
    for (std::size_t k = 0; k < row.columns.size(); ++k)
      along += row.values[k] * step_[row.columns[k]];
    if (along < -in_the_way * constraints_.norm[i] * length) return false;
  }
  return true;
}

/// Moves the target as far as it goes: up where `direction` is 1, down where it is -1.
Ranges::End Ranges::go(double direction) {
  const RowView target = target_.view(0, reduction_.layout());
  std::fill(centre_.begin(), centre_.end(), 0.0);
  for (int moves = 0; moves < most_moves; ++moves) {
    // |y - centre|^2 / 2 less the slope's pull over one size of the numbers: the plain step is that far along the
    // slope.
    for (std::size_t k = 0; k < target.columns.size(); ++k)
      centre_[target.columns[k]] += direction * magnitude_ * target.values[k];
    factor_.reset(reduction_.layout());
    factor_.add_proximal(1.0, centre_);
    if (active_set_.solve(factor_, constraints_, magnitude_) != ActiveSet::Outcome::optimal) return End::not_found;
    double longest = 0;
    for (std::size_t c = 0; c < centre_.size(); ++c) {
      for (std::size_t k = 0; k < target.columns.size(); ++k)
        if (target.columns[k] == static_cast<int>(c)) centre_[c] -= direction * magnitude_ * target.values[k];
      step_[c] = active_set_.point()[c] - centre_[c];
      longest = std::max(longest, std::abs(step_[c]));
      centre_[c] = active_set_.point()[c];
    }
    end_ = 0;
    double gained = 0;
    for (std::size_t k = 0; k < target.columns.size(); ++k) {
      end_ += target.values[k] * centre_[target.columns[k]];
      gained += direction * target.values[k] * step_[target.columns[k]];
    }
    if (moves > 0 && (longest <= still * magnitude_ || gained <= still * magnitude_)) return End::at_rest;
    if (gained > still * magnitude_ && moves > 0 && never_stopped()) return End::without_bound;
  }
  return End::not_found;
}

Range Ranges::range(const Problem &problem, int unknown) {
  prepare(problem);
  target_.clear();
  reduction_.reduce(std::array<Term, 1>{{{unknown, 1.0}}}, 0, target_);
  const int size = reduction_.layout().size();
  centre_.assign(size, 0.0);
  step_.assign(size, 0.0);
  const double at = reduction_.point()[unknown];
  Range found;
  const End low = go(-1);
  if (low == End::not_found) {
    found.empty = true;
    return found;
  }
  if (low == End::at_rest) found.low = at + end_;
  const End high = go(1);
  if (high == End::at_rest) found.high = at + end_;
  if (high == End::not_found) found.empty = true;
  return found;
}

} // namespace gatherwright::optimum
