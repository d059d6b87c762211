// SPDX-License-Identifier: GPL-3.0-or-later
// A problem like the one before is solved in the room already made: a program of its own, since it counts what the
// whole of it takes from the heap. Whatever takes memory, operator new and Eigen too, comes to one of the functions
// below, which hand on to glibc's own.

#include "solver/optimum/hierarchy.hpp"
#include "tests/solver/optimum/random_problem.hpp"

#include <atomic>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <string_view>

namespace {

std::atomic<long> taken = 0;

} // namespace

extern "C" {
void *__libc_malloc(std::size_t size);
void *__libc_calloc(std::size_t count, std::size_t size);
void *__libc_realloc(void *old, std::size_t size);
void *__libc_memalign(std::size_t alignment, std::size_t size);

void *malloc(std::size_t size) {
  ++taken;
  return __libc_malloc(size);
}
void *calloc(std::size_t count, std::size_t size) {
  ++taken;
  return __libc_calloc(count, size);
}
void *realloc(void *old, std::size_t size) {
  ++taken;
  return __libc_realloc(old, size);
}
void *aligned_alloc(std::size_t alignment, std::size_t size) {
  ++taken;
  return __libc_memalign(alignment, size);
}
}

using namespace gatherwright;

namespace {

/// How often memory is taken while this is done.
template <class Work> long taken_by(const Work &work) {
  const long before = taken;
  work();
  return taken - before;
}

/// Whether the count sees what it should: without that a count of 0 would say nothing.
bool sees_allocations() {
  std::unique_ptr<int[]> made;
  return taken_by([&made] { made = std::make_unique<int[]>(100); }) == 1 && made[99] == 0;
}

} // namespace

int main() {
  if (!sees_allocations()) {
    std::puts("what is taken from the heap is not seen");
    return 1;
  }
  constexpr std::uint64_t problems = 100;
  for (std::uint64_t seed = 0; seed < problems; ++seed) {
    const optimum::Problem problem = tests::RandomProblem(seed).make({});
    optimum::Hierarchy solver;
    solver.solve(problem);
    solver.feasible(problem);
    const auto expect_none = [seed](std::string_view what, long count) {
      if (count != 0)
        std::printf("problem %d: %s takes memory %ld times\n", static_cast<int>(seed), what.data(), count);
      return count == 0;
    };
    const bool none = expect_none("solving again", taken_by([&] { solver.solve(problem); })) &&
                      expect_none("finding its point alone",
                                  taken_by([&] { solver.solve(problem, optimum::Hierarchy::Wanted::point); })) &&
                      expect_none("seeing that it can hold", taken_by([&] { solver.feasible(problem); }));
    if (!none) return 1;
  }
  std::printf("%d problems were solved again and nothing was taken from the heap\n", static_cast<int>(problems));
}
