// SPDX-License-Identifier: GPL-3.0-or-later
#include "optimum/conflict.hpp"

#include "optimum/solver.hpp"

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

} // namespace

Conflict irreducible_conflict(const Problem &problem, const std::vector<Condition> &conditions) {
  Solver solver;
  std::vector<char> dropped(conditions.size(), 0);
  for (int c = static_cast<int>(conditions.size()) - 1; c >= 0; --c) {
    dropped[c] = 1;
    // What cannot be told apart stays, as what can hold does.
    if (solver.feasible(without(problem, conditions, dropped).problem).value_or(true)) dropped[c] = 0;
  }
  Conflict found;
  for (std::size_t c = 0; c < conditions.size(); ++c)
    if (!dropped[c]) found.conditions.push_back(static_cast<int>(c));
  if (found.conditions.empty()) return found;
  const Part rest = without(problem, conditions, dropped);
  const Solution &solution = solver.solve(rest.problem);
  if (solution.status == Status::conflict)
    found.apart = distance(rest, solution.conflict, conditions[found.conditions.back()]);
  return found;
}

} // namespace gatherwright::optimum
