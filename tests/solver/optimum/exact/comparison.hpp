// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/problem.hpp"
#include "tests/solver/optimum/exact/lexicographic.hpp"

#include <string>

/// What the solver says of a problem beside what is so.
namespace gatherwright::tests::exact {

/// Above which residual the program does not call an answer proved.
inline constexpr double proved = 1e-9;

struct Verdict {
  bool refused = false; ///< neither an answer nor a conflict was told
  bool wrong = false;
  bool certified = false;  ///< the checker found it good, or a conflict was told
  bool bent = false;       ///< better than the best, by what level 0 may be off in rounded numbers
  bool determined = false; ///< the best point is one and well determined, so the unknowns were held beside it
  double residual = 0;     ///< the checker's
  double worst = 0;        ///< of what was found wrong, in its row's own size
  double worst_of_all = 0; ///< the same of a row in the greatest number that any row adds up; else as `worst`
  std::string what;        ///< in words; empty: nothing
};

Verdict compare(const optimum::Problem &problem, const optimum::Solution &solution, const Answer &exact);

} // namespace gatherwright::tests::exact
