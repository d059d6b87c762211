// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/alone.hpp"

#include <algorithm>
#include <array>

namespace gatherwright {

namespace {

/// One join of a scheme as a problem by itself, its lengths as cut, one unknown more for the edge that is to move.
class JoinProblem {
public:
  JoinProblem(const allot::Scheme &scheme, std::span<const double> unknowns, int join)
      : unknowns_(unknowns), first_(scheme.first_column[join]), end_(scheme.problem.block_ends[join]) {
    problem.unknowns = end_ - first_ + 1;
    problem.block_ends = {end_ - first_};
  }

  int edge_column() const { return end_ - first_; }

  /// Copies the rows of the join; row `moving` gets the edge's own unknown for all it has on lengths.
  void copy(const optimum::Rows &from, optimum::Rows &to, int moving) {
    std::vector<optimum::Term> terms;
    for (int i = 0; i < from.size(); ++i) {
      terms.clear();
      double bound = from.bound[i];
      for (const optimum::Term &term : from.row(i)) {
        if (term.column >= first_ && term.column < end_)
          terms.push_back({term.column - first_, term.value});
        else
          bound -= term.value * unknowns_[term.column];
      }
      if (terms.empty()) continue;
      if (i == moving) {
        terms.push_back({edge_column(), -1.0});
        bound = 0;
      }
      to.add(terms, bound);
    }
  }

  optimum::Problem problem;

private:
  std::span<const double> unknowns_;
  int first_;
  int end_;
};

} // namespace

std::optional<double> edge_alone(const allot::Scheme &scheme, std::span<const double> unknowns, int join,
                                 WhichEdge edge, optimum::Solver &solver) {
  const auto kind = edge == WhichEdge::long_edge ? Condition::Kind::long_adds_up : Condition::Kind::band_adds_up;
  const auto named = std::find_if(scheme.conditions.begin(), scheme.conditions.end(),
                                  [&](const Condition &c) { return c.kind == kind && c.join == join; });
  const int adds_up = scheme.condition_rows[named - scheme.conditions.begin()].equal.front();
  JoinProblem own(scheme, unknowns, join);
  own.copy(scheme.problem.equal, own.problem.equal, adds_up);
  own.copy(scheme.problem.at_least, own.problem.at_least, -1);
  own.copy(scheme.problem.limits, own.problem.at_least, -1);
  const Affine &form = edge == WhichEdge::long_edge ? scheme.long_edges[join] : scheme.bands[join];
  const std::array<optimum::Term, 1> row{{{own.edge_column(), 1.0}}};
  own.problem.wishes[0].add(row, scheme.value(form, unknowns));
  const optimum::Solution &found = solver.solve(own.problem, optimum::Solver::Wanted::point);
  if (found.status != optimum::Status::optimal || found.x[own.edge_column()] <= 0) return std::nullopt;
  return found.x[own.edge_column()];
}

} // namespace gatherwright
