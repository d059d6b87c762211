// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/optimum/problem.hpp"

#include <span>
#include <vector>

namespace gatherwright::bench {

/// A strictly convex quadratic programme as qpgen2 takes it: 1/2 x'Dx - d'x least under A'x >= b, the first
/// `equalities` of them with equality. Column by column; the solver overwrites D and d.
struct DenseProgramme {
  int unknowns = 0;
  int constraints = 0;
  int equalities = 0;
  std::vector<double> hessian; ///< unknowns x unknowns
  std::vector<double> linear;
  std::vector<double> normals; ///< unknowns x constraints
  std::vector<double> bound;
};

/// One level of a problem, equal and at_least being its constraints.
void write(const optimum::Problem &problem, const optimum::Rows &wishes, DenseProgramme &into);

/// The Goldfarb-Idnani solver of R's package quadprog (B. Turlach, A. Weingessel), as Debian's r-cran-quadprog installs
/// it, found when the bench runs: nothing is linked with it.
class Qpgen2 {
public:
  Qpgen2();
  bool present() const { return solve_ != nullptr; }

  /// The solution, or nothing where the solver found none. Overwrites D and d.
  std::span<const double> solve(DenseProgramme &programme);

  int dropped() const { return steps_[1]; } ///< constraints taken out again in the last solve

private:
  using Solve = void(double *, double *, int *, int *, double *, double *, double *, double *, double *, int *, int *,
                     int *, int *, int *, int *, double *, int *);
  Solve *solve_ = nullptr;
  std::vector<double> solution_, multipliers_, work_;
  std::vector<int> active_;
  int steps_[2] = {0, 0};
};

} // namespace gatherwright::bench
