// SPDX-License-Identifier: GPL-3.0-or-later
#include "bench/qpgen2.hpp"

#include <algorithm>
#include <dlfcn.h>

namespace gatherwright::bench {

void write(const optimum::Problem &problem, const optimum::Rows &wishes, DenseProgramme &into) {
  const std::size_t n = problem.unknowns;
  into.unknowns = problem.unknowns;
  into.equalities = problem.equal.size();
  into.constraints = problem.equal.size() + problem.at_least.size();
  into.hessian.assign(n * n, 0.0);
  into.linear.assign(n, 0.0);
  into.normals.assign(n * into.constraints, 0.0);
  into.bound.resize(into.constraints);
  for (int i = 0; i < wishes.size(); ++i)
    for (const optimum::Term &term : wishes.row(i)) {
      into.linear[term.column] += wishes.bound[i] * term.value;
      for (const optimum::Term &other : wishes.row(i))
        into.hessian[term.column * n + other.column] += term.value * other.value;
    }
  std::size_t constraint = 0;
  for (const optimum::Rows *rows : {&problem.equal, &problem.at_least})
    for (int i = 0; i < rows->size(); ++i, ++constraint) {
      into.bound[constraint] = rows->bound[i];
      for (const optimum::Term &term : rows->row(i))
        into.normals[constraint * n + term.column] = term.value;
    }
}

Qpgen2::Qpgen2() {
  void *library = dlopen("/usr/lib/R/site-library/quadprog/libs/quadprog.so", RTLD_LAZY | RTLD_LOCAL);
  if (library) solve_ = reinterpret_cast<Solve *>(dlsym(library, "qpgen2_"));
}

std::span<const double> Qpgen2::solve(DenseProgramme &programme) {
  int n = programme.unknowns;
  int constraints = programme.constraints;
  int equalities = programme.equalities;
  const int most = std::min(n, constraints);
  solution_.assign(n, 0.0);
  multipliers_.assign(constraints, 0.0);
  active_.assign(constraints, 0);
  work_.assign(2 * n + most * (most + 5) / 2 + 2 * constraints + 1, 0.0);
  double value = 0;
  int active = 0;
  int fault = 0; // on entry: D is not yet factored
  solve_(programme.hessian.data(), programme.linear.data(), &n, &n, solution_.data(), multipliers_.data(), &value,
         programme.normals.data(), programme.bound.data(), &n, &constraints, &equalities, active_.data(), &active,
         steps_, work_.data(), &fault);
  return fault == 0 ? std::span<const double>(solution_) : std::span<const double>();
}

} // namespace gatherwright::bench
