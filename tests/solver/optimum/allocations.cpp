// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/optimum/hierarchy.hpp"
#include "tests/solver/optimum/random_problem.hpp"

#include <atomic>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <new>

namespace {

std::atomic<long> allocations = 0;

void *allocate(std::size_t size) {
  ++allocations;
  if (void *made = std::malloc(size > 0 ? size : 1)) return made;
  throw std::bad_alloc();
}

} // namespace

void *operator new(std::size_t size) {
  return allocate(size);
}
void *operator new[](std::size_t size) {
  return allocate(size);
}
void operator delete(void *made) noexcept {
  std::free(made);
}
void operator delete[](void *made) noexcept {
  std::free(made);
}
void operator delete(void *made, std::size_t) noexcept {
  std::free(made);
}
void operator delete[](void *made, std::size_t) noexcept {
  std::free(made);
}

using namespace gatherwright;

TEST_CASE("a problem like the one before is solved in the room already made") {
  int solved = 0;
  for (std::uint64_t seed = 0; seed < 100; ++seed) {
    optimum::Problem problem = tests::RandomProblem(seed).make({});
    optimum::Hierarchy solver;
    solver.solve(problem);
    solver.feasible(problem);
    const long before = allocations;
    solver.solve(problem);
    solver.solve(problem, optimum::Hierarchy::Wanted::point);
    solver.feasible(problem);
    const long after = allocations;
    INFO("seed " << seed);
    CHECK(after == before);
    ++solved;
  }
  CHECK(solved == 100);
}
