// SPDX-License-Identifier: GPL-3.0-or-later
// Small problems that are hard to solve in rounded numbers, beside a solver that does not round: no answer may be wrong
// and called good.

#include "optimum/solver.hpp"
#include "solver/optimum/exact/comparison.hpp"
#include "solver/optimum/exact/families.hpp"

#include <cstddef>
#include <cstdint>
#include <cstdlib>

using namespace gatherwright;
using namespace gatherwright::tests;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size);

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
  std::size_t at = 0;
  const auto byte = [&] { return at < size ? data[at++] : 0; };
  const exact::Draw draw = [&](int below) {
    const int low = byte();
    return (below > 256 ? low + 256 * byte() : low) % below;
  };
  const auto family = static_cast<exact::Family>(draw(static_cast<int>(exact::family_names.size())));
  const optimum::Problem problem = exact::make_problem(family, draw);
  optimum::Solver solver;
  const optimum::Solution &solution = solver.solve(problem);
  const exact::Verdict verdict = exact::compare(problem, solution, exact::solve(problem));
  if (verdict.wrong && verdict.certified) std::abort();
  return 0;
}
