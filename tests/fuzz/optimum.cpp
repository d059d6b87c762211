// SPDX-License-Identifier: GPL-3.0-or-later
// Small hierarchies of small whole numbers, where rows often depend on each other and often tie: what the solver calls
// optimal its checker, which shares no code with it, must find so; what it calls a conflict must be one.

#include "solver/optimum/certificate.hpp"
#include "solver/optimum/solver.hpp"

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <vector>

using namespace gatherwright::optimum;

namespace {

constexpr double enough = 1e-9;

/// Bytes one after another; 0 once there are none.
struct Bytes {
  const std::uint8_t *data;
  std::size_t size;
  std::size_t at = 0;

  int next(int below) { return at < size ? data[at++] % below : 0; }
  bool any() const { return at < size; }
};

void add_row(Rows &rows, Bytes &bytes, int unknowns) {
  std::vector<Term> row;
  for (int column = 0; column < unknowns; ++column)
    if (const int value = bytes.next(5) - 2; value != 0) row.push_back({column, static_cast<double>(value)});
  if (!row.empty()) rows.add(row, bytes.next(41) - 20);
}

Problem problem_of(Bytes bytes) {
  Problem problem;
  problem.unknowns = 1 + bytes.next(5);
  // Every unknown is bounded, so that no level is without a least.
  for (int column = 0; column < problem.unknowns; ++column) {
    problem.at_least.add(std::vector<Term>{{column, 1.0}}, -30);
    problem.at_least.add(std::vector<Term>{{column, -1.0}}, -30);
  }
  for (int rows = 0; rows < 16 && bytes.any(); ++rows) {
    const int which = bytes.next(6);
    Rows &into = which == 0   ? problem.equal
                 : which == 1 ? problem.at_least
                 : which == 2 ? problem.limits
                              : problem.wishes[which - 3];
    add_row(into, bytes, problem.unknowns);
  }
  return problem;
}

/// The rows so multiplied must sum to no terms and a bound above 0.
void check_conflict(const Problem &problem, const Multipliers &multipliers) {
  std::vector<double> sum(problem.unknowns);
  double bound = 0;
  double size = 0;
  const auto add = [&](const Rows &rows, const std::vector<double> &times) {
    for (int i = 0; i < rows.size(); ++i) {
      for (const Term &term : rows.row(i)) {
        sum[term.column] += times[i] * term.value;
        size += std::abs(times[i] * term.value);
      }
      bound += times[i] * rows.bound[i];
    }
  };
  add(problem.equal, multipliers.equal);
  add(problem.at_least, multipliers.at_least);
  for (const double times : multipliers.at_least)
    if (times < 0) std::abort();
  for (const double left : sum)
    if (std::abs(left) > enough * size) std::abort();
  if (!(bound > 0)) std::abort();
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size);

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
  const Problem problem = problem_of({data, size});
  Solver solver;
  const Solution &solution = solver.solve(problem);
  if (solution.status == Status::conflict) {
    check_conflict(problem, solution.conflict);
    return 0;
  }
  if (solution.status != Status::optimal) std::abort();
  if (!(check(problem, solution).largest() <= enough)) std::abort();
  return 0;
}
