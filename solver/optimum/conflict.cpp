// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/conflict.hpp"

#include "solver/optimum/solver.hpp"

#include <algorithm>
#include <cmath>

namespace gatherwright::optimum {

namespace {

/// Level 0 with the rows of some conditions left out.
struct Part {
  Problem problem;
  std::vector<int> equal; ///< the row each came from
  std::vector<int> at_least;
};

Part without(const Problem &whole, const std::vector<Condition> &conditions, const std::vector<char> &dropped) {
  std::vector<char> equal(whole.equal.size(), 1);
  std::vector<char> at_least(whole.at_least.size(), 1);
  for (std::size_t c = 0; c < conditions.size(); ++c) {
    if (!dropped[c]) continue;
    for (const int i : conditions[c].equal)
      equal[i] = 0;
    for (const int i : conditions[c].at_least)
      at_least[i] = 0;
  }
  Part part;
  part.problem.unknowns = whole.unknowns;
  part.problem.block_ends = whole.block_ends;
  const auto copy = [](const Rows &from, const std::vector<char> &kept, Rows &to, std::vector<int> &origin) {
    for (int i = 0; i < from.size(); ++i) {
      if (!kept[i]) continue;
      to.add(from.row(i), from.bound[i]);
      origin.push_back(i);
    }
  };
  copy(whole.equal, equal, part.problem.equal, part.equal);
  copy(whole.at_least, at_least, part.problem.at_least, part.at_least);
  return part;
}

/// The contradiction's bound, over the multiplier of the condition that would give way.
double distance(const Part &part, const Multipliers &contradiction, const Condition &gives_way) {
  double bound = 0;
  double multiplier = 0;
  const auto look = [&](const Rows &rows, const std::vector<double> &multipliers, const std::vector<int> &origin,
                        const std::vector<int> &own) {
    for (int i = 0; i < rows.size(); ++i) {
      bound += multipliers[i] * rows.bound[i];
      if (std::find(own.begin(), own.end(), origin[i]) != own.end())
        multiplier = std::max(multiplier, std::abs(multipliers[i]));
    }
  };
  look(part.problem.equal, contradiction.equal, part.equal, gives_way.equal);
  look(part.problem.at_least, contradiction.at_least, part.at_least, gives_way.at_least);
  return multiplier > 0 ? bound / multiplier : 0;
}

/// The conditions that a contradiction of a part of the problem is made of.
std::vector<char> used_by(const Multipliers &contradiction, const Part &part,
                          const std::vector<int> &condition_of_equal, const std::vector<int> &condition_of_at_least,
                          std::size_t conditions) {
  std::vector<char> used(conditions, 0);
  const auto look = [&](const std::vector<double> &multipliers, const std::vector<int> &origin,
                        const std::vector<int> &condition_of) {
    for (std::size_t i = 0; i < multipliers.size(); ++i)
      if (const int condition = condition_of[origin[i]]; multipliers[i] != 0 && condition >= 0) used[condition] = 1;
  };
  look(contradiction.equal, part.equal, condition_of_equal);
  look(contradiction.at_least, part.at_least, condition_of_at_least);
  return used;
}

/// The deletion filter, with the contradiction at hand.
class Filter {
public:
  Filter(const Problem &problem, const std::vector<Condition> &conditions, const Multipliers *known, Work *work)
      : problem_(problem), conditions_(conditions), dropped_(conditions.size(), 0), used_(conditions.size(), 1),
        condition_of_equal_(problem.equal.size(), -1), condition_of_at_least_(problem.at_least.size(), -1) {
    solver_.count_into(work);
    for (std::size_t c = 0; c < conditions.size(); ++c) {
      for (const int i : conditions[c].equal)
        condition_of_equal_[i] = static_cast<int>(c);
      for (const int i : conditions[c].at_least)
        condition_of_at_least_[i] = static_cast<int>(c);
    }
    if (known) take(*known, without(problem_, conditions_, dropped_));
  }

  Conflict run() {
    for (std::size_t c = conditions_.size(); c-- > 0;) {
      dropped_[c] = 1;
      if (used_[c] == 0) continue;
      const Status status = look();
      if (status == Status::conflict) continue;
      dropped_[c] = 0;
      if (status == Status::too_much_work) return as_far_as_found();
    }
    return found();
  }

private:
  /// Looks at what has not been dropped; where it conflicts, its contradiction is the one at hand from now on.
  Status look() {
    const Part part = without(problem_, conditions_, dropped_);
    const Solution &solution = solver_.solve(part.problem, Solver::Wanted::point);
    if (solution.status == Status::conflict) take(solution.conflict, part);
    return solution.status;
  }

  void take(const Multipliers &contradiction, const Part &part) {
    used_ = used_by(contradiction, part, condition_of_equal_, condition_of_at_least_, conditions_.size());
    for (std::size_t c = 0; c < used_.size(); ++c)
      if (used_[c] != 0) last_used_ = static_cast<int>(c);
    apart_ = distance(part, contradiction, conditions_[last_used_]);
  }

  Conflict as_far_as_found() const {
    Conflict found;
    found.irreducible = false;
    for (std::size_t c = 0; c < used_.size(); ++c)
      if (used_[c] != 0) found.conditions.push_back(static_cast<int>(c));
    found.apart = apart_;
    return found;
  }

  Conflict found() {
    Conflict found;
    for (std::size_t c = 0; c < conditions_.size(); ++c)
      if (dropped_[c] == 0) found.conditions.push_back(static_cast<int>(c));
    if (found.conditions.empty()) return found;
    const Part rest = without(problem_, conditions_, dropped_);
    const Solution &solution = solver_.solve(rest.problem);
    found.apart = solution.status == Status::conflict
                      ? distance(rest, solution.conflict, conditions_[found.conditions.back()])
                      : apart_;
    return found;
  }

  const Problem &problem_;
  const std::vector<Condition> &conditions_;
  Solver solver_;
  std::vector<char> dropped_;
  std::vector<char> used_; ///< by the contradiction at hand; all, while there is none
  int last_used_ = 0;
  double apart_ = 0;                                            ///< what the last of them would have to give way by
  std::vector<int> condition_of_equal_, condition_of_at_least_; ///< -1: of none
};

} // namespace

Conflict irreducible_conflict(const Problem &problem, const std::vector<Condition> &conditions,
                              const Multipliers *known, Work *work) {
  return Filter(problem, conditions, known, work).run();
}

} // namespace gatherwright::optimum
