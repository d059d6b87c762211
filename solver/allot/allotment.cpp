// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/allot/allotment.hpp"

#include "solver/optimum/conflict.hpp"
#include "solver/optimum/parts.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace gatherwright::allot {

namespace {

using optimum::Problem;
using optimum::Solution;
using optimum::Solver;
using optimum::Status;

/// A length this near to a step, in steps, is on it, and one this near to half way between two is half way.
constexpr double on_step = 1e-6;

/// A limit is passed no further where it is by this share of the numbers in it at most.
constexpr double no_further = 1e-9;

/// Rows compared in pairs, at most.
constexpr std::size_t most_compared = 1000;

/// The two steps to try, the nearer first (a tie: the lower).
std::array<double, 2> steps_beside(double value, double step) {
  const double steps = value / step;
  const double nearest = std::round(steps);
  if (std::abs(steps - nearest) <= on_step) return {nearest * step, (nearest + (steps < nearest ? -1 : 1)) * step};
  const double below = std::floor(steps);
  const double above = below + 1;
  if (steps - below <= 0.5 + on_step) return {below * step, above * step};
  return {above * step, below * step};
}

bool passes_no_further(const Problem &problem, const Solution &held, const Solution &free) {
  for (int i = 0; i < problem.limits.size(); ++i) {
    double numbers = std::abs(problem.limits.bound[i]);
    for (const optimum::Term &term : problem.limits.row(i))
      numbers += std::abs(term.value * held.x[term.column]);
    if (held.violation[i] > free.violation[i] + no_further * numbers) return false;
  }
  return true;
}

bool is_point(const Solution &solution) {
  return solution.status != Status::conflict && solution.status != Status::indistinct;
}

double level_one(const Solution &solution) {
  double sum = 0;
  for (const double violation : solution.violation)
    sum += violation * violation;
  return sum;
}

/// Up to so many lengths are found in the whole problem, whose elimination may be at hand; more of them each in the
/// part that it belongs to, since what does not meet it need not be solved again.
constexpr std::size_t few = 16;

/// With one more length held, a problem of more unknowns than this is solved from its answer before; a smaller one
/// anew, which takes little.
constexpr int large = 200;

/// One that is found on a step but for this share of it is held there without solving again: nothing else moves by
/// more.
constexpr double already_there = 1e-12;

/// A step that misses what a row asks of the length alone by more than this share of a step is not to be tried.
constexpr double too_far = 1e-3;

/// Free lengths of one problem, put on the tape one after another: of the whole problem, or of a part of it.
class Rounding {
public:
  /// `start` must suit the problem. `inevitable`: limits of other parts cannot be kept. `near`: the answer before is
  /// where the next is looked for.
  Rounding(const Problem &problem, Solution joint, optimum::Binding binding, const optimum::Elimination &start,
           bool inevitable, bool near, double step, Solver &solver)
      : problem_(problem), best_(std::move(joint)), binding_(std::move(binding)), start_(start),
        inevitable_(inevitable), near_(near), step_(step), solver_(solver) {}

  enum class Found { on_tape, off_tape, too_much_work };

  /// Puts the length at a column on the tape, with those before it held where they were put.
  Found put(int column) {
    const std::array<double, 2> steps = steps_beside(best_.x[column], step_);
    if (std::abs(best_.x[column] - steps[0]) <= already_there * steps[0]) {
      hold(column, steps[0]);
      return Found::on_tape;
    }
    std::array<Solution, 2> tried;
    std::array<optimum::Binding, 2> bound;
    int chosen = -1;
    for (int k = 0; k < 2 && chosen < 0; ++k) {
      tried[k] = solved_with(column, steps[k]);
      if (tried[k].status == Status::too_much_work) return Found::too_much_work;
      bound[k] = solver_.binding();
      if (is_point(tried[k]) && passes_no_further(problem_, tried[k], best_)) chosen = k;
    }
    if (chosen < 0 && (inevitable_ || level_one(best_) > 0))
      for (int k = 0; k < 2; ++k)
        if (is_point(tried[k]) && (chosen < 0 || level_one(tried[k]) < level_one(tried[chosen]))) chosen = k;
    if (chosen < 0) {
      hold(column, best_.x[column]);
      return Found::off_tape;
    }
    best_ = std::move(tried[chosen]);
    binding_ = std::move(bound[chosen]);
    hold(column, steps[chosen]);
    return Found::on_tape;
  }

  const std::vector<double> &x() const { return best_.x; }

private:
  void hold(int column, double at) {
    best_.x[column] = at;
    put_.emplace_back(column, at);
  }

  /// Whether no row of the length alone forbids a value.
  bool may_be(int column, double value) const {
    const optimum::Rows &rows = problem_.at_least;
    for (int i = 0; i < rows.size(); ++i) {
      const std::span<const optimum::Term> row = rows.row(i);
      if (row.size() != 1 || row[0].column != column) continue;
      if (row[0].value * value < rows.bound[i] - too_far * step_ * std::abs(row[0].value)) return false;
    }
    return true;
  }

  Solution solved_with(int column, double value) {
    if (!may_be(column, value)) {
      Solution none;
      none.status = Status::conflict;
      return none;
    }
    if (!held_) held_ = problem_;
    optimum::Rows &equal = held_->equal;
    const auto add = [&](int of, double at) { equal.add(std::array<optimum::Term, 1>{{{of, 1.0}}}, at); };
    for (int held = equal.size() - problem_.equal.size(); held < static_cast<int>(put_.size()); ++held)
      add(put_[held].first, put_[held].second);
    add(column, value);
    const Solution &found = near_ && problem_.unknowns > large ? solver_.solve_near(*held_, {best_.x, binding_}, start_)
                                                               : solver_.solve(*held_, Solver::Wanted::point, &start_);
    equal.drop_last();
    return found;
  }

  const Problem &problem_;
  std::optional<Problem> held_; ///< with lengths before held where they were put, once something is solved again
  std::vector<std::pair<int, double>> put_; ///< those lengths' columns, and where they were put
  Solution best_;
  optimum::Binding binding_; ///< of that
  const optimum::Elimination &start_;
  bool inevitable_;
  bool near_;
  double step_;
  Solver &solver_;
};

/// Solves a scheme and puts its lengths on the tape, in the whole or in its parts.
class Allotting {
public:
  Allotting(const Scheme &scheme, const Tape &tape, bool limits_missed, Solver &solver)
      : scheme_(scheme), problem_(scheme.problem), step_(tape.step.mm), limits_missed_(limits_missed), solver_(solver) {
  }

  Allotment in_whole(const optimum::Elimination *start) {
    std::optional<optimum::Elimination> own;
    if (!start || !start->suits(problem_)) start = &own.emplace(problem_, solver_.work());
    if (!start->done()) return too_much_work();
    Solution joint = solver_.solve(problem_, Solver::Wanted::everything, start);
    if (joint.status == Status::too_much_work) return too_much_work();
    if (joint.status == Status::conflict) return conflict(joint.conflict);
    if (joint.status == Status::indistinct) return indistinct();
    made_.proved = joint.status == Status::optimal;
    take(joint, made_.proved ? solver_.residuals() : optimum::check(problem_, joint));
    Rounding rounding(problem_, std::move(joint), solver_.binding(), *start, limits_missed_, false, step_, solver_);
    for (const int length : scheme_.free_lengths)
      if (!put(rounding, scheme_.column_of_length[length], scheme_.column_of_length[length])) return too_much_work();
    made_.unknowns = rounding.x();
    return finished();
  }

  Allotment in_parts() {
    const std::vector<optimum::PartOfProblem> parts = optimum::parts_of(problem_);
    std::vector<optimum::Elimination> starts;
    std::vector<Solution> found;
    std::vector<optimum::Binding> bindings;
    Solution joint = optimum::nothing_solved(problem_);
    for (const optimum::PartOfProblem &part : parts) {
      if (has_too_many_lengths(part.problem)) return too_much_work();
      if (!starts.emplace_back(part.problem, solver_.work()).done()) return too_much_work();
      found.push_back(solver_.solve(part.problem, Solver::Wanted::everything, &starts.back()));
      if (found.back().status == Status::too_much_work) return too_much_work();
      if (found.back().status == Status::conflict)
        return conflict(optimum::contradiction_of_whole(problem_, part, found.back().conflict));
      if (found.back().status == Status::indistinct) return indistinct();
      bindings.push_back(solver_.binding());
      made_.proved = made_.proved && found.back().status == Status::optimal;
      optimum::put_together(part, found.back(), joint);
    }
    take(joint, optimum::check(problem_, joint));
    limits_missed_ = limits_missed_ || level_one(joint) > 0;
    for (std::size_t p = 0; p < parts.size(); ++p) {
      const optimum::PartOfProblem &part = parts[p];
      Rounding rounding(part.problem, std::move(found[p]), std::move(bindings[p]), starts[p], limits_missed_, true,
                        step_, solver_);
      for (int c = part.problem.shared_begin(); c < part.problem.unknowns; ++c)
        if (!put(rounding, c, part.unknowns[c])) return too_much_work();
      for (int c = 0; c < part.problem.unknowns; ++c)
        made_.unknowns[part.unknowns[c]] = rounding.x()[c];
    }
    return finished();
  }

private:
  /// On the tape each length is a condition that holds.
  bool has_too_many_lengths(const Problem &problem) const {
    if (problem.unknowns - problem.shared_begin() <= optimum::most_active) return false;
    if (optimum::Work *work = solver_.work()) work->lack(optimum::Work::Bound::active);
    return true;
  }

  static Allotment too_much_work() {
    Allotment made;
    made.too_much_work = true;
    return made;
  }

  static Allotment indistinct() {
    Allotment made;
    made.indistinct = true;
    return made;
  }

  static Allotment conflict(optimum::Multipliers contradiction) {
    Allotment made;
    made.conflict = true;
    made.contradiction = std::move(contradiction);
    return made;
  }

  /// Takes what the joint optimum says.
  void take(const Solution &joint, const optimum::Residuals &residuals) {
    made_.certificate = residuals;
    made_.exact = joint.x;
    made_.unknowns = joint.x;
    made_.loose = joint.loose;
    made_.off_tape.assign(scheme_.free_lengths.size(), 0);
  }

  /// Puts one length on the tape, at a column of the problem at hand, which is another of the whole. False: it was too
  /// much work.
  bool put(Rounding &rounding, int column, int of_whole) {
    const Rounding::Found found = rounding.put(column);
    made_.off_tape[of_whole - problem_.shared_begin()] = found == Rounding::Found::off_tape;
    return found != Rounding::Found::too_much_work;
  }

  Allotment finished() {
    if (!scheme_.free_lengths.empty())
      made_.certificate.feasibility =
          std::max(made_.certificate.feasibility, optimum::check_feasible(problem_, made_.unknowns));
    // No length is below 0 but by rounding.
    for (std::vector<double> *unknowns : {&made_.exact, &made_.unknowns})
      for (double &x : *unknowns)
        x = x > 0 ? x : 0;
    return std::move(made_);
  }

  const Scheme &scheme_;
  const Problem &problem_;
  double step_;
  bool limits_missed_;
  Solver &solver_;
  Allotment made_;
};

} // namespace

Allotment allot(const Scheme &scheme, const Tape &tape, Solver &solver, const optimum::Elimination *start,
                bool limits_missed) {
  Allotting allotting(scheme, tape, limits_missed, solver);
  return scheme.free_lengths.size() <= few ? allotting.in_whole(start) : allotting.in_parts();
}

namespace {

/// The cosine of two rows, without its sign; 0 where one has no terms.
double cosine(std::span<const optimum::Term> a, std::span<const optimum::Term> b) {
  double product = 0;
  double square_a = 0;
  double square_b = 0;
  for (const optimum::Term &term : a) {
    square_a += term.value * term.value;
    for (const optimum::Term &other : b)
      if (other.column == term.column) product += term.value * other.value;
  }
  for (const optimum::Term &term : b)
    square_b += term.value * term.value;
  return square_a > 0 && square_b > 0 ? std::abs(product) / std::sqrt(square_a * square_b) : 0;
}

bool says_a_length(const Condition &condition) {
  return !std::holds_alternative<condition::AddsUp>(condition) && !std::holds_alternative<condition::Flat>(condition);
}

} // namespace

std::optional<std::array<Condition, 2>> nearest_to_parallel(const Scheme &scheme) {
  std::vector<std::pair<int, std::span<const optimum::Term>>> rows; // condition, row
  for (int c = 0; c < static_cast<int>(scheme.conditions.size()); ++c) {
    if (!says_a_length(scheme.conditions[c])) continue;
    rows.emplace_back(c, scheme.row_of_condition(static_cast<std::size_t>(c)));
  }
  std::optional<std::array<Condition, 2>> nearest;
  double most = -1;
  for (std::size_t i = 0; i < rows.size() && i < most_compared; ++i)
    for (std::size_t j = i + 1; j < rows.size() && j < most_compared; ++j) {
      const double parallel = cosine(rows[i].second, rows[j].second);
      if (parallel <= most) continue;
      most = parallel;
      nearest = {scheme.conditions[rows[i].first], scheme.conditions[rows[j].first]};
    }
  return nearest;
}

NamedConflict named_conflict(const Scheme &scheme, const optimum::Multipliers &contradiction, optimum::Work &work) {
  std::vector<optimum::Condition> conditions;
  conditions.reserve(scheme.condition_rows.size());
  for (const auto &[is_equal, row] : scheme.condition_rows)
    (is_equal ? conditions.emplace_back().equal : conditions.emplace_back().at_least).push_back(row);
  const optimum::Conflict found = optimum::irreducible_conflict(scheme.problem, conditions, &contradiction, &work);
  NamedConflict named;
  named.irreducible = found.irreducible;
  named.apart = found.apart;
  for (const int c : found.conditions)
    named.conditions.push_back(scheme.conditions[c]);
  return named;
}

} // namespace gatherwright::allot
