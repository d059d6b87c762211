// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/carried.hpp"

#include "solver/optimum/dense.hpp"
#include "solver/optimum/nearest.hpp"
#include "solver/optimum/row_name.hpp"
#include "solver/optimum/tolerances.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace gatherwright::optimum {

namespace {

constexpr int most_moves = 100;

/// Unknowns and limits of a problem that is solved so at most: beyond, a dense solve takes seconds.
constexpr long most_columns = 120;

class Carrier {
public:
  Carrier(const Problem &problem, long &budget)
      : problem_(problem), budget_(budget), x_(problem.unknowns, Wide(0)), violation_(problem.limits.size(), Wide(0)),
        held_limit_(problem.limits.size(), 0) {}

  bool solve(bool everything, Solution &into);

private:
  enum class Limits { left_out, soft, hard };
  using Outcome = Nearest::Outcome;

  Wide value(const Rows &rows, int row) const;
  void look_at_size();
  void add_row(const RowName &name, bool held, int own_column);
  void build_rows(Limits limits);
  void hold(const RowName &name);
  void hold_direction(const RowName &name);
  bool is_settled(std::span<const Wide> row);
  void begin_wishes(const Rows &wishes, int columns, Wide share);
  Outcome move_to_rest(const Rows &wishes, Limits limits);
  void find_violations();
  void hold_violated();
  bool is_slack(int row) const;
  void give_multipliers(Multipliers &into, int level) const;
  bool solve_levels(bool everything, Solution &into);
  bool draw(std::span<const Wide> towards, std::vector<char> &loose);
  bool find_loose(std::vector<char> &loose);

  const Problem &problem_;
  long &budget_;
  Nearest nearest_;
  std::vector<Wide> x_;
  std::vector<Wide> violation_;
  std::vector<char> held_limit_; ///< of each limit: missed, and held as it is
  std::vector<RowName> held_;
  WideRows rows_;
  std::vector<RowName> names_; ///< of the rows
  int equalities_ = 0;
  Wide magnitude_ = 0;
  bool ambiguous_ = false;
  std::vector<Wide> weights_, wish_, left_;
  std::vector<Wide> directions_; ///< orthonormal, of the rows that hold or are held, one after another
};

Wide Carrier::value(const Rows &rows, int row) const {
  Wide sum = 0;
  for (const Term &term : rows.row(row))
    sum += term.value * x_[term.column];
  return sum;
}

/// The numbers are as large as the point, and as the bounds over the norms of their rows.
void Carrier::look_at_size() {
  for (const Wide c : x_)
    magnitude_ = std::max(magnitude_, absolute(c));
  for (const Rows *rows : {&problem_.equal, &problem_.at_least, &problem_.limits})
    for (int i = 0; i < rows->size(); ++i) {
      double most = 0;
      for (const Term &term : rows->row(i))
        most = std::max(most, std::abs(term.value));
      if (most > 0) magnitude_ = std::max(magnitude_, Wide(std::abs(rows->bound[i]) / most));
    }
  if (magnitude_ == 0) magnitude_ = 1;
}

/// With what the point misses of it: nothing, where it is held as it is.
void Carrier::add_row(const RowName &name, bool held, int own_column) {
  const Rows &rows = rows_of(problem_, name);
  Wide missing = rows.bound[name.row];
  Wide numbers = absolute(missing);
  for (const Term &term : rows.row(name.row)) {
    missing -= term.value * x_[term.column];
    numbers += absolute(term.value * x_[term.column]);
  }
  const std::span<Wide> row = rows_.add(held ? Wide(0) : missing, numbers);
  for (const Term &term : rows.row(name.row))
    row[term.column] = term.value;
  if (own_column >= 0) row[own_column] = 1;
  rows_.find_norm();
  names_.push_back(name);
}

/// What holds or is held, then the inequalities; limits that may be missed each have an unknown of their own for it.
void Carrier::build_rows(Limits limits) {
  const int soft = limits == Limits::soft ? problem_.limits.size() : 0;
  rows_.clear(problem_.unknowns + soft);
  names_.clear();
  for (int i = 0; i < problem_.equal.size(); ++i)
    add_row({RowName::Set::equal, 0, i}, false, -1);
  for (const RowName &name : held_)
    add_row(name, true, -1);
  equalities_ = rows_.count();
  for (int i = 0; i < problem_.at_least.size(); ++i)
    add_row({RowName::Set::at_least, 0, i}, false, -1);
  if (limits == Limits::left_out) return;
  for (int i = 0; i < problem_.limits.size(); ++i)
    if (held_limit_[i] == 0)
      add_row({RowName::Set::limits, 0, i}, false, limits == Limits::soft ? problem_.unknowns + i : -1);
}

/// Whether what is held leaves nothing of the row; what it leaves is in left_, at length 1 where it is something.
bool Carrier::is_settled(std::span<const Wide> row) {
  const std::size_t unknowns = problem_.unknowns;
  left_.assign(row.begin(), row.begin() + problem_.unknowns);
  const Wide before = square_root(dot(left_, left_));
  for (int pass = 0; pass < 2; ++pass)
    for (std::size_t at = 0; at < directions_.size(); at += unknowns) {
      const std::span<const Wide> direction = std::span(directions_).subspan(at, unknowns);
      const Wide part = dot(direction, left_);
      add_times(left_, direction, -part);
    }
  const Wide after = square_root(dot(left_, left_));
  budget_ -= std::min(budget_, static_cast<long>(4 * directions_.size()));
  if (after <= tolerance::dependent_share * before) {
    ambiguous_ = ambiguous_ || after > tolerance::wide::rounded_share * before;
    return true;
  }
  for (Wide &c : left_)
    c /= after;
  return false;
}

void Carrier::hold_direction(const RowName &name) {
  wish_.assign(problem_.unknowns, Wide(0));
  for (const Term &term : rows_of(problem_, name).row(name.row))
    wish_[term.column] = term.value;
  if (!is_settled(wish_)) directions_.insert(directions_.end(), left_.begin(), left_.end());
}

void Carrier::hold(const RowName &name) {
  held_.push_back(name);
  hold_direction(name);
}

/// The wishes from where the point is, with the proximal term; unknowns of limits that may be missed weigh 1.
void Carrier::begin_wishes(const Rows &wishes, int columns, Wide share) {
  double greatest = 0;
  for (const Rows *rows : {&wishes, columns > problem_.unknowns ? &problem_.limits : &wishes})
    for (const Term &term : rows->terms)
      greatest = std::max(greatest, std::abs(term.value));
  weights_.assign(problem_.unknowns, greatest > 0 ? share * Wide(greatest) : Wide(1));
  weights_.resize(columns, Wide(1));
  nearest_.begin(weights_);
  for (int i = 0; i < wishes.size(); ++i) {
    wish_.assign(columns, Wide(0));
    for (const Term &term : wishes.row(i))
      wish_[term.column] = term.value;
    // What is held leaves nothing of a settled one but rounding, which is no direction to move in.
    if (is_settled(wish_))
      for (int c = 0; c < problem_.unknowns; ++c)
        wish_[c] -= left_[c];
    nearest_.add_wish(wish_, wishes.bound[i] - value(wishes, i));
  }
  budget_ -= std::min(budget_, 2L * wishes.size() * columns * columns);
}

/// Solves one level, moving the centre of the proximal term to the answer until it stands still.
Carrier::Outcome Carrier::move_to_rest(const Rows &wishes, Limits limits) {
  const bool settles = wishes.size() > 0 || limits == Limits::soft;
  Wide share = tolerance::wide::proximal_share;
  Wide before = 0;
  for (int moves = 0; moves < most_moves; ++moves) {
    look_at_size();
    build_rows(limits);
    begin_wishes(wishes, rows_.columns, share);
    const Outcome outcome = nearest_.solve(rows_, equalities_, magnitude_, budget_);
    ambiguous_ = ambiguous_ || nearest_.ambiguous();
    if (outcome != Outcome::optimal) return outcome;
    Wide moved = 0;
    for (int c = 0; c < problem_.unknowns; ++c) {
      x_[c] += nearest_.point()[c];
      moved = std::max(moved, absolute(nearest_.point()[c]));
    }
    if (!settles || moved <= tolerance::wide::still * magnitude_) return Outcome::optimal;
    const bool is_slow = moves > 0 && moved > tolerance::slow * before;
    if (is_slow && share * share * moved <= tolerance::wide::no_slope * magnitude_) return Outcome::optimal;
    if (is_slow) share = tolerance::wide::least_proximal_share;
    before = moved;
  }
  return Outcome::stalled;
}

void Carrier::find_violations() {
  for (int i = 0; i < problem_.limits.size(); ++i) {
    const Wide missed = nearest_.point()[problem_.unknowns + i];
    Wide numbers = absolute(problem_.limits.bound[i]);
    for (const Term &term : problem_.limits.row(i))
      numbers += absolute(term.value * x_[term.column]);
    if (missed > tolerance::no_violation * numbers) violation_[i] = missed;
  }
}

void Carrier::hold_violated() {
  for (int i = 0; i < problem_.limits.size(); ++i) {
    if (!(violation_[i] > 0)) continue;
    held_limit_[i] = 1;
    if (!problem_.limits.row(i).empty()) hold({RowName::Set::limits, 0, i});
  }
}

/// Whether an inequality is not met just so, and so has no multiplier but rounding.
bool Carrier::is_slack(int row) const {
  if (row < equalities_) return false;
  Wide missing = rows_.bound[row];
  for (int c = 0; c < rows_.columns; ++c)
    missing -= rows_.row(row)[c] * nearest_.point()[c];
  return missing < -tolerance::no_violation * rows_.size[row];
}

/// `level` counts from 0, the limits'.
void Carrier::give_multipliers(Multipliers &into, int level) const {
  into.equal.assign(problem_.equal.size(), 0.0);
  into.at_least.assign(problem_.at_least.size(), 0.0);
  into.limits.assign(problem_.limits.size(), 0.0);
  for (int i = 0; i < wish_levels; ++i)
    into.wishes[i].assign(i + 1 < level ? problem_.wishes[i].size() : 0, 0.0);
  const std::span<const Wide> multipliers = nearest_.multipliers();
  Wide greatest = 0;
  for (int i = 0; i < rows_.count(); ++i)
    greatest = std::max(greatest, absolute(multipliers[i]) * rows_.norm[i]);
  for (int i = 0; i < rows_.count(); ++i) {
    if (absolute(multipliers[i]) * rows_.norm[i] <= tolerance::wide::no_multiplier * greatest || is_slack(i)) continue;
    const RowName &name = names_[i];
    const auto value = static_cast<double>(multipliers[i]);
    if (name.set == RowName::Set::equal)
      into.equal[name.row] = value;
    else if (name.set == RowName::Set::at_least)
      into.at_least[name.row] = value;
    else if (name.set == RowName::Set::wishes)
      into.wishes[name.level][name.row] = value;
    else if (level > 0)
      into.limits[name.row] = value;
  }
}

bool Carrier::solve_levels(bool everything, Solution &into) {
  if (problem_.limits.size() > 0) {
    if (move_to_rest({}, Limits::soft) != Outcome::optimal) return false;
    find_violations();
    if (everything && std::any_of(violation_.begin(), violation_.end(), [](Wide missed) { return missed > 0; }))
      give_multipliers(into.levels[0], 0);
    hold_violated();
  }
  for (int level = 0; level < wish_levels; ++level) {
    const Rows &wishes = problem_.wishes[level];
    if (wishes.size() == 0) continue;
    if (move_to_rest(wishes, Limits::hard) != Outcome::optimal) return false;
    if (everything) give_multipliers(into.levels[level + 1], level + 1);
    for (int i = 0; i < wishes.size(); ++i)
      hold({RowName::Set::wishes, level, i});
  }
  return true;
}

/// False: the search came to no end.
bool Carrier::draw(std::span<const Wide> towards, std::vector<char> &loose) {
  weights_.assign(problem_.unknowns, Wide(1));
  nearest_.begin(weights_);
  nearest_.aim_at(towards);
  if (nearest_.solve(rows_, equalities_, magnitude_, budget_) != Outcome::optimal) return false;
  for (int c = 0; c < problem_.unknowns; ++c)
    if (absolute(nearest_.point()[c]) > tolerance::moved_share * magnitude_) loose[c] = 1;
  return true;
}

/// Unknowns that can still move: all drawn together, along a direction that is orthogonal to nothing in particular and
/// along its opposite; if anything moves, those that stayed one by one.
bool Carrier::find_loose(std::vector<char> &loose) {
  look_at_size();
  build_rows(Limits::hard);
  std::vector<Wide> towards(problem_.unknowns);
  for (const int side : {1, -1}) {
    std::uint32_t state = 12345;
    for (Wide &far : towards) {
      state = state * 1664525U + 1013904223U;
      far = side * magnitude_ * (0.5 + state / 4294967296.0);
    }
    if (!draw(towards, loose)) return false;
  }
  if (std::find(loose.begin(), loose.end(), 1) == loose.end()) return true;
  for (int c = 0; c < problem_.unknowns; ++c)
    for (const int side : {1, -1}) {
      if (loose[c] != 0) break;
      std::fill(towards.begin(), towards.end(), Wide(0));
      towards[c] = side * magnitude_;
      if (!draw(towards, loose)) return false;
    }
  return true;
}

bool Carrier::solve(bool everything, Solution &into) {
  into = {};
  const long columns = problem_.unknowns + problem_.limits.size();
  const long rows = problem_.equal.size() + problem_.at_least.size() + problem_.limits.size();
  if (columns > most_columns || columns * (columns + rows) > budget_)
    return false; // no room is made for what cannot be solved anyway
  into.loose.assign(problem_.unknowns, 0);
  const Outcome outcome = move_to_rest({}, Limits::left_out);
  if (outcome == Outcome::infeasible) {
    into.status = ambiguous_ ? Status::indistinct : Status::conflict;
    give_multipliers(into.conflict, 0);
    return true;
  }
  for (int i = 0; i < problem_.equal.size(); ++i)
    hold_direction({RowName::Set::equal, 0, i});
  if (outcome != Outcome::optimal || !solve_levels(everything, into)) return false;
  if (everything && !find_loose(into.loose)) return false;
  into.status = ambiguous_ ? Status::stalled : Status::optimal;
  for (const Wide c : x_)
    into.x.push_back(absolute(c) > tolerance::wide::nothing * magnitude_ ? static_cast<double>(c) : 0);
  for (const Wide missed : violation_)
    into.violation.push_back(static_cast<double>(missed));
  return true;
}

} // namespace

bool solve_carried(const Problem &problem, bool everything, long &budget, Solution &into) {
  return Carrier(problem, budget).solve(everything, into);
}

} // namespace gatherwright::optimum
