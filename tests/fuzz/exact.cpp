// SPDX-License-Identifier: GPL-3.0-or-later
// Small problems that are hard to solve in rounded numbers, beside a solver that does not round: no answer may be wrong
// and called good.

#include "solver/optimum/solver.hpp"
#include "tests/solver/optimum/exact/comparison.hpp"
#include "tests/solver/optimum/exact/families.hpp"

#include <cstddef>
#include <cstdint>
#include <cstdlib>

using namespace gatherwright;
using namespace gatherwright::tests;

namespace {

/// In the size of the row that is wrong.
constexpr double plainly_wrong = 1e-5;

/// In the greatest number that any row adds up: what a plan promises. Rows carry its rounding from one unknown to others,
/// and a row a million million times smaller than another of its level is not seen beside it.
constexpr double seen_beside_all = 1e-9;

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size);

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
  std::size_t at = 0;
  const auto byte = [&] { return at < size ? data[at++] : 0; };
  const exact::Draw draw = [&](int below) {
    const int low = byte();
    return (below > 256 ? low + 256 * byte() : low) % below;
  };
  const auto family = static_cast<exact::Family>(draw(static_cast<int>(exact::family_names.size())));
  // Rows less than 1e-9 apart ask another question of exact arithmetic: what must hold may be missed by as much.
  if (family == exact::Family::more_nearly_parallel) return 0;
  const optimum::Problem problem = exact::make_problem(family, draw);
  optimum::Solver solver;
  const optimum::Solution &solution = solver.solve(problem);
  const exact::Verdict verdict = exact::compare(problem, solution, exact::solve(problem));
  // What a row far smaller than others of its level is off by, the level's promise of 1e-9 may still allow.
  if (verdict.wrong && verdict.certified && verdict.worst > plainly_wrong && verdict.worst_of_all > seen_beside_all)
    std::abort();
  return 0;
}
