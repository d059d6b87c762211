// SPDX-License-Identifier: GPL-3.0-or-later
#include "optimum/hierarchy.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright::optimum {

namespace {

/// An unknown whose pivot is less than this share of the greatest is left open by a level's wishes.
constexpr double open_share = 1e-7;

/// Weight of the proximal term over the greatest pivot. What the wishes do see converges by its square in each move.
constexpr double proximal_share = 1e-4;

/// The centre stands still where it moves by no more than this share of the numbers: rounding (1e-16) through a factor
/// whose condition the proximal term keeps below about 1 / proximal_share.
constexpr double still = 1e-12;
/// Below this it is at rest as soon as a move no longer halves the one before: such a drift comes of a slope of
/// proximal_share^2 * nearly_still = 1e-13 of the gradient, which is rounding.
constexpr double nearly_still = 1e-5;

/// A violation below this share of the numbers in its row is rounding: the limit can hold.
constexpr double no_violation = 1e-11;

/// A multiplier that weighs less than this share of its level's gradient is rounding in a wish that is met.
constexpr double no_multiplier = 1e-12;

/// Drawn towards a place as far away as the numbers are large, what moves by less than this share of them is held.
constexpr double moved_share = 1e-8;

constexpr int most_moves = 100;

void add_names(std::vector<RowName> &names, RowName::Set set, int level, int rows) {
  for (int i = 0; i < rows; ++i)
    names.push_back({set, level, i});
}

} // namespace

double Hierarchy::size_of_numbers() const {
  double size = 0;
  const auto look = [&](const Rows &rows) {
    for (int i = 0; i < rows.size(); ++i) {
      double square = 0;
      for (const Term &term : rows.row(i))
        square += term.value * term.value;
      if (square > 0) size = std::max(size, std::abs(rows.bound[i]) / std::sqrt(square));
    }
  };
  look(problem_->equal);
  look(problem_->at_least);
  look(problem_->limits);
  for (const Rows &wishes : problem_->wishes)
    look(wishes);
  return size > 0 ? size : 1;
}

/// Held equalities first, then level 0's inequalities, then the limits that can hold.
void Hierarchy::build_constraints(LimitsAre limits) {
  constraints_.rows.clear();
  constraints_.bound.clear();
  constraints_.norm.clear();
  names_.clear();
  reduced_.clear();
  const auto take = [&](const ReducedRows &from) {
    for (int i = 0; i < from.size(); ++i) {
      constraints_.rows.push_back(from.view(i, reduction_.layout()));
      constraints_.bound.push_back(from.rest[i]);
      constraints_.norm.push_back(from.norm[i]);
    }
  };
  take(reduction_.held());
  constraints_.equalities = constraints_.size();
  const auto reduce = [&](RowName::Set set, const Rows &rows, int i) {
    reduction_.reduce(rows.row(i), rows.bound[i], reduced_);
    names_.push_back({set, 0, i});
  };
  for (int i = 0; i < problem_->at_least.size(); ++i)
    reduce(RowName::Set::at_least, problem_->at_least, i);
  if (limits == LimitsAre::wanted)
    for (int i = 0; i < problem_->limits.size(); ++i)
      if (solution_.violation[i] == 0) reduce(RowName::Set::limits, problem_->limits, i);
  take(reduced_);
}

void Hierarchy::insert_wishes() {
  factor_.reset(reduction_.layout());
  for (int i = 0; i < reduced_wishes_.size(); ++i)
    factor_.insert(reduced_wishes_.view(i, reduction_.layout()), reduced_wishes_.rest[i]);
}

/// Solves one level within the constraints as built, and moves the point to the answer.
ActiveSet::Outcome Hierarchy::solve_level(const Rows &wishes) {
  reduced_wishes_.clear();
  for (int i = 0; i < wishes.size(); ++i)
    reduction_.reduce(wishes.row(i), wishes.bound[i], reduced_wishes_);
  insert_wishes();
  const double greatest = factor_.greatest_diagonal();
  const bool open = factor_.size() > 0 && factor_.least_diagonal() <= open_share * greatest;
  const double weight = greatest > 0 ? proximal_share * greatest : 1;
  zero_.assign(factor_.size(), 0.0);
  if (open) factor_.add_proximal(weight, zero_);
  ActiveSet::Outcome outcome = active_set_.solve(factor_, constraints_, magnitude_);
  if (outcome != ActiveSet::Outcome::optimal) return outcome;
  if (open && wishes.size() > 0) {
    std::vector<double> &centre = zero_;
    step_.resize(centre.size());
    double before = HUGE_VAL;
    int moves = 0;
    for (; moves < most_moves; ++moves) {
      double longest = 0;
      for (std::size_t c = 0; c < centre.size(); ++c) {
        step_[c] = active_set_.point()[c] - centre[c];
        longest = std::max(longest, std::abs(step_[c]));
        centre[c] = active_set_.point()[c];
      }
      const bool at_rest =
          longest <= still * magnitude_ || (longest <= nearly_still * magnitude_ && longest > 0.5 * before);
      if (at_rest) break;
      before = longest;
      factor_.move_centre(weight, step_);
      outcome = active_set_.solve_again();
      if (outcome != ActiveSet::Outcome::optimal) return outcome;
    }
    if (moves == most_moves) outcome = ActiveSet::Outcome::stalled;
  }
  reduction_.move(active_set_.point());
  return outcome;
}

void Hierarchy::size_multipliers(Multipliers &into, int level) const {
  into.equal.assign(problem_->equal.size(), 0.0);
  into.at_least.assign(problem_->at_least.size(), 0.0);
  into.limits.assign(problem_->limits.size(), 0.0);
  for (int i = 0; i < wish_levels; ++i)
    into.wishes[i].assign(i < level ? problem_->wishes[i].size() : 0, 0.0);
}

/// The greatest component of |A|'(|A||x| + |b|), with every |x| at least the size of the numbers: what rounding in the
/// gradient is measured by.
double Hierarchy::size_of_gradient(const Rows &wishes) {
  gradient_.assign(problem_->unknowns, 0.0);
  for (int i = 0; i < wishes.size(); ++i) {
    double size = std::abs(wishes.bound[i]);
    for (const Term &term : wishes.row(i))
      size += std::abs(term.value) * std::max(std::abs(reduction_.point()[term.column]), magnitude_);
    for (const Term &term : wishes.row(i))
      gradient_[term.column] += std::abs(term.value) * size;
  }
  return gradient_.empty() ? 0 : *std::max_element(gradient_.begin(), gradient_.end());
}

/// Multipliers of the raw rows for the level just solved: A'(A x - b) is what they must sum to.
void Hierarchy::give_multipliers(const Rows &wishes, Multipliers &into) {
  const double nothing = no_multiplier * size_of_gradient(wishes);
  gradient_.assign(problem_->unknowns, 0.0);
  const auto add = [&](std::span<const Term> row, double factor) {
    for (const Term &term : row)
      gradient_[term.column] += factor * term.value;
  };
  for (int i = 0; i < wishes.size(); ++i) {
    double residual = -wishes.bound[i];
    for (const Term &term : wishes.row(i))
      residual += term.value * reduction_.point()[term.column];
    add(wishes.row(i), residual);
  }
  const std::vector<double> &found = active_set_.multipliers();
  for (std::size_t i = 0; i < names_.size(); ++i) {
    const double multiplier = found[constraints_.equalities + i];
    if (multiplier == 0 || multiplier * constraints_.norm[constraints_.equalities + i] < nothing) continue;
    (names_[i].set == RowName::Set::at_least ? into.at_least : into.limits)[names_[i].row] = multiplier;
    add(rows_of(*problem_, names_[i]).row(names_[i].row), -multiplier);
  }
  held_multipliers_.assign(found.begin(), found.begin() + constraints_.equalities);
  for (int i = 0; i < constraints_.equalities; ++i)
    if (std::abs(held_multipliers_[i]) * constraints_.norm[i] < nothing) held_multipliers_[i] = 0;
  for (double &component : gradient_)
    if (std::abs(component) < nothing) component = 0;
  reduction_.multipliers(held_multipliers_, gradient_, into);
}

bool Hierarchy::find_conflict() {
  build_constraints(LimitsAre::left_out);
  const ActiveSet::Outcome outcome = solve_level(Rows{});
  if (outcome == ActiveSet::Outcome::infeasible) {
    size_multipliers(solution_.conflict, 0);
    give_multipliers(Rows{}, solution_.conflict);
    solution_.status = Status::conflict;
    return true;
  }
  return false;
}

/// Level 1 where the limits cannot all hold: the same problem with one unknown more for each limit, its violation.
bool Hierarchy::meet_limits_as_far_as_possible() {
  Problem wider;
  std::vector<int> moved(problem_->unknowns);
  std::vector<int> slack(problem_->limits.size());
  std::vector<int> block_of_limit(problem_->limits.size(), -1);
  for (int i = 0; i < problem_->limits.size(); ++i)
    for (const Term &term : problem_->limits.row(i))
      if (term.column < problem_->shared_begin())
        block_of_limit[i] =
            static_cast<int>(std::upper_bound(problem_->block_ends.begin(), problem_->block_ends.end(), term.column) -
                             problem_->block_ends.begin());
  const auto place_slacks = [&](int block) {
    for (int i = 0; i < problem_->limits.size(); ++i)
      if (block_of_limit[i] == block) slack[i] = wider.unknowns++;
  };
  for (int j = 0, first = 0; j < problem_->blocks(); ++j) {
    for (; first < problem_->block_ends[j]; ++first)
      moved[first] = wider.unknowns++;
    place_slacks(j);
    wider.block_ends.push_back(wider.unknowns);
  }
  for (int x = problem_->shared_begin(); x < problem_->unknowns; ++x)
    moved[x] = wider.unknowns++;
  place_slacks(-1);
  std::vector<Term> terms;
  const auto copy = [&](const Rows &from, Rows &to, const std::vector<int> *with_slack) {
    for (int i = 0; i < from.size(); ++i) {
      terms.clear();
      for (const Term &term : from.row(i))
        terms.push_back({moved[term.column], term.value});
      if (with_slack) terms.push_back({(*with_slack)[i], 1.0});
      to.add(terms, from.bound[i]);
    }
  };
  copy(problem_->equal, wider.equal, nullptr);
  copy(problem_->at_least, wider.at_least, nullptr);
  copy(problem_->limits, wider.at_least, &slack);
  for (const int column : slack)
    wider.wishes[0].add(std::vector<Term>{{column, 1.0}}, 0.0);

  Hierarchy inner;
  const Solution &found = inner.solve(wider);
  if (found.status == Status::conflict) return false;
  if (found.status == Status::stalled) solution_.status = Status::stalled;
  Multipliers &level = solution_.levels[0];
  size_multipliers(level, 0);
  level.equal = found.levels[1].equal;
  const int must = problem_->at_least.size();
  std::copy_n(found.levels[1].at_least.begin(), must, level.at_least.begin());
  for (int i = 0; i < problem_->limits.size(); ++i) {
    double numbers = std::abs(problem_->limits.bound[i]);
    for (const Term &term : problem_->limits.row(i))
      numbers += std::abs(term.value * found.x[moved[term.column]]);
    const double violation = found.x[slack[i]];
    solution_.violation[i] = violation > no_violation * numbers ? violation : 0;
  }
  return true;
}

void Hierarchy::hold_level(int level) {
  std::vector<RowName> names;
  add_names(names, RowName::Set::wishes, level, problem_->wishes[level].size());
  reduction_.hold(names);
}

/// Unknowns that can still move: what is left open is drawn towards two opposite places far away, within all that is
/// held.
void Hierarchy::find_loose() {
  solution_.loose.assign(problem_->unknowns, 0);
  const int open = reduction_.layout().size();
  if (open == 0) return;
  build_constraints(LimitsAre::wanted);
  std::vector<double> far(open);
  for (const double side : {1.0, -1.0}) {
    std::uint32_t state = 12345;
    for (double &f : far) {
      state = state * 1664525U + 1013904223U;
      f = side * magnitude_ * (0.5 + state / 4294967296.0);
    }
    factor_.reset(reduction_.layout());
    factor_.add_proximal(1.0, far);
    if (active_set_.solve(factor_, constraints_, magnitude_) != ActiveSet::Outcome::optimal) continue;
    if (active_set_.equalities() == open) return; // all that is held leaves nothing open
    reduction_.displacement(active_set_.point(), step_);
    for (int i = 0; i < problem_->unknowns; ++i)
      if (std::abs(step_[i]) > moved_share * magnitude_) solution_.loose[i] = 1;
  }
}

bool Hierarchy::feasible(const Problem &problem) {
  problem_ = &problem;
  magnitude_ = size_of_numbers();
  solution_.violation.clear();
  reduction_.begin(problem);
  std::vector<RowName> names;
  add_names(names, RowName::Set::equal, 0, problem.equal.size());
  reduction_.hold(names, problem.equal.bound);
  build_constraints(LimitsAre::left_out);
  return solve_level(Rows{}) != ActiveSet::Outcome::infeasible;
}

const Solution &Hierarchy::solve(const Problem &problem, Wanted wanted) {
  problem_ = &problem;
  magnitude_ = size_of_numbers();
  solution_.status = Status::optimal;
  solution_.violation.assign(problem.limits.size(), 0.0);
  for (int level = 0; level <= wish_levels; ++level)
    size_multipliers(solution_.levels[level], std::max(level - 1, 0));
  std::vector<RowName> names;
  add_names(names, RowName::Set::equal, 0, problem.equal.size());
  reduction_.begin(problem);
  reduction_.hold(names, problem.equal.bound);

  bool limits_settled = false;
  for (int level = 0; level < wish_levels; ++level) {
    const Rows &wishes = problem.wishes[level];
    if (wishes.size() == 0 && (limits_settled || level + 1 < wish_levels)) continue;
    build_constraints(LimitsAre::wanted);
    ActiveSet::Outcome outcome = solve_level(wishes);
    if (outcome == ActiveSet::Outcome::infeasible && !limits_settled) {
      // Either level 0 cannot hold, or the limits cannot all hold with it.
      if (find_conflict()) return solution_;
      if (!meet_limits_as_far_as_possible()) {
        solution_.status = Status::stalled;
        return solution_;
      }
      reduction_.begin(problem);
      reduction_.hold(names, problem.equal.bound);
      std::vector<RowName> violated;
      std::vector<double> bounds;
      for (int i = 0; i < problem.limits.size(); ++i)
        if (solution_.violation[i] > 0 && !problem.limits.row(i).empty()) {
          violated.push_back({RowName::Set::limits, 0, i});
          bounds.push_back(problem.limits.bound[i] - solution_.violation[i]);
        }
      reduction_.hold(violated, bounds);
      build_constraints(LimitsAre::wanted);
      outcome = solve_level(wishes);
    }
    if (outcome != ActiveSet::Outcome::optimal) solution_.status = Status::stalled;
    limits_settled = true;
    if (wishes.size() == 0) continue; // the proximal term alone chose the point: no level has multipliers for that
    if (wanted == Wanted::everything) give_multipliers(wishes, solution_.levels[level + 1]);
    const bool last = level + 1 == wish_levels;
    if (!last || wanted == Wanted::everything) hold_level(level);
  }
  solution_.x.assign(reduction_.point().begin(), reduction_.point().end());
  if (wanted == Wanted::everything) find_loose();
  return solution_;
}

} // namespace gatherwright::optimum
