// SPDX-License-Identifier: GPL-3.0-or-later
#include "allot/allotment.hpp"

#include "optimum/parts.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace gatherwright::allot {

namespace {

using optimum::Hierarchy;
using optimum::Problem;
using optimum::Solution;
using optimum::Status;

/// A length this near to a step, in steps, is on it, and one this near to half way between two is half way.
constexpr double on_step = 1e-6;

/// A limit is passed no further where it is by this share of the numbers in it at most.
constexpr double no_further = 1e-9;

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

double level_one(const Solution &solution) {
  double sum = 0;
  for (const double violation : solution.violation)
    sum += violation * violation;
  return sum;
}

/// Free lengths of one problem, put on the tape one after another: of the whole problem, or of a part of it.
class Rounding {
public:
  /// `start` must suit the problem. `inevitable`: the limits of the whole cannot all be kept.
  Rounding(const Problem &problem, Solution joint, const optimum::Elimination &start, bool inevitable, double step,
           Hierarchy &solver)
      : held_(problem), best_(std::move(joint)), start_(start), inevitable_(inevitable), step_(step), solver_(solver) {}

  enum class Found { on_tape, off_tape, too_much_work };

  /// Puts the length at a column on the tape, with those before it held where they were put.
  Found put(int column) {
    const std::array<optimum::Term, 1> row{{{column, 1.0}}};
    const int at = held_.equal.size();
    held_.equal.add(row, 0);
    std::array<Solution, 2> tried;
    int chosen = -1;
    const std::array<double, 2> steps = steps_beside(best_.x[column], step_);
    for (int k = 0; k < 2 && chosen < 0; ++k) {
      held_.equal.bound[at] = steps[k];
      tried[k] = solver_.solve(held_, Hierarchy::Wanted::point, &start_);
      if (tried[k].status == Status::too_much_work) return Found::too_much_work;
      if (tried[k].status != Status::conflict && passes_no_further(held_, tried[k], best_)) chosen = k;
    }
    if (chosen < 0 && (inevitable_ || level_one(best_) > 0))
      for (int k = 0; k < 2; ++k)
        if (tried[k].status != Status::conflict && (chosen < 0 || level_one(tried[k]) < level_one(tried[chosen])))
          chosen = k;
    if (chosen < 0) {
      held_.equal.bound[at] = best_.x[column];
      return Found::off_tape;
    }
    held_.equal.bound[at] = steps[chosen];
    best_ = std::move(tried[chosen]);
    best_.x[column] = steps[chosen];
    return Found::on_tape;
  }

  const std::vector<double> &x() const { return best_.x; }

private:
  Problem held_;
  Solution best_;
  const optimum::Elimination &start_;
  bool inevitable_;
  double step_;
  Hierarchy &solver_;
};

/// What of a solution of the whole a part has, as far as rounding needs it.
Solution part_of(const Solution &whole, const optimum::Part &part) {
  Solution own;
  own.status = whole.status;
  for (const int column : part.unknowns)
    own.x.push_back(whole.x[column]);
  for (const int limit : part.limits)
    own.violation.push_back(whole.violation[limit]);
  return own;
}

/// Up to so many lengths are put on the tape in the whole problem, whose elimination is at hand; of more, each in the
/// part that it belongs to, since what does not meet it need not be solved again.
constexpr std::size_t few = 16;

/// Puts the free lengths on the tape. False: it was too much work.
bool put_on_tape(const Scheme &scheme, const Solution &joint, const optimum::Elimination &start, double step,
                 Hierarchy &solver, Allotment &made) {
  const bool inevitable = level_one(joint) > 0;
  const auto put = [&](Rounding &rounding, std::size_t length, int column) {
    const Rounding::Found found = rounding.put(column);
    made.off_tape[length] = found == Rounding::Found::off_tape;
    return found != Rounding::Found::too_much_work;
  };
  if (scheme.free_lengths.size() <= few) {
    Rounding rounding(scheme.problem, joint, start, inevitable, step, solver);
    for (std::size_t i = 0; i < scheme.free_lengths.size(); ++i)
      if (!put(rounding, i, scheme.column_of_length[scheme.free_lengths[i]])) return false;
    made.unknowns = rounding.x();
    return true;
  }
  made.unknowns = joint.x;
  for (const optimum::Part &part : optimum::parts_with_shared(scheme.problem)) {
    const optimum::Elimination own(part.problem, solver.work());
    if (!own.done()) return false;
    Rounding rounding(part.problem, part_of(joint, part), own, inevitable, step, solver);
    for (int c = part.problem.shared_begin(); c < part.problem.unknowns; ++c)
      if (!put(rounding, part.unknowns[c] - scheme.problem.shared_begin(), c)) return false;
    for (int c = 0; c < part.problem.unknowns; ++c)
      made.unknowns[part.unknowns[c]] = rounding.x()[c];
  }
  return true;
}

} // namespace

Allotment allot(const Scheme &scheme, const Tape &tape, Hierarchy &solver, const optimum::Elimination *start) {
  Allotment made;
  std::optional<optimum::Elimination> own;
  if (!start || !start->suits(scheme.problem)) start = &own.emplace(scheme.problem, solver.work());
  made.too_much_work = !start->done();
  if (made.too_much_work) return made;
  const Solution best = solver.solve(scheme.problem, Hierarchy::Wanted::everything, start);
  made.too_much_work = best.status == Status::too_much_work;
  made.conflict = best.status == Status::conflict;
  if (made.conflict) made.contradiction = best.conflict;
  if (made.conflict || made.too_much_work) return made;
  made.certificate = optimum::check(scheme.problem, best);
  made.exact = best.x;
  made.loose = best.loose;
  made.off_tape.assign(scheme.free_lengths.size(), 0);
  made.unknowns = best.x;
  if (scheme.free_lengths.empty()) return made;
  made.too_much_work = !put_on_tape(scheme, best, *start, tape.step.mm, solver, made);
  made.certificate.feasibility =
      std::max(made.certificate.feasibility, optimum::check_feasible(scheme.problem, made.unknowns));
  return made;
}

NamedConflict named_conflict(const Scheme &scheme, const optimum::Multipliers &contradiction, optimum::Work &work) {
  const optimum::Conflict found =
      optimum::irreducible_conflict(scheme.problem, scheme.condition_rows, &contradiction, &work);
  NamedConflict named;
  named.irreducible = found.irreducible;
  named.apart = found.apart;
  for (const int c : found.conditions)
    named.conditions.push_back(scheme.conditions[c]);
  return named;
}

} // namespace gatherwright::allot
