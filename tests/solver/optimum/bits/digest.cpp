// SPDX-License-Identifier: GPL-3.0-or-later
// Prints one number for all the bits of many answers: the same number, the same bits.
#include "solver/optimum/solver.hpp"
#include "tests/solver/optimum/exact/families.hpp"
#include "tests/solver/optimum/random_problem.hpp"

#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstring>
#include <vector>

using namespace gatherwright;

namespace {

/// FNV-1a, number by number (Fowler, Noll & Vo).
class Digest {
public:
  void add(std::uint64_t bits) { hash_ = (hash_ ^ bits) * 1099511628211ULL; }
  void add(const std::vector<double> &numbers) {
    add(numbers.size());
    for (const double number : numbers) {
      std::uint64_t bits = 1; // of what is no number, whose bits mean nothing
      if (!std::isnan(number)) std::memcpy(&bits, &number, sizeof bits);
      add(bits);
    }
  }
  void add(const optimum::Multipliers &multipliers) {
    add(multipliers.equal);
    add(multipliers.at_least);
    add(multipliers.limits);
    for (const std::vector<double> &wishes : multipliers.wishes)
      add(wishes);
  }
  void add(const optimum::Solution &solution) {
    add(static_cast<std::uint64_t>(solution.status));
    if (solution.status == optimum::Status::conflict) return add(solution.conflict);
    add(solution.x);
    add(solution.violation);
    for (const char loose : solution.loose)
      add(static_cast<std::uint64_t>(loose));
    for (const optimum::Multipliers &multipliers : solution.levels)
      add(multipliers);
  }
  unsigned long long value() const { return hash_; }

private:
  std::uint64_t hash_ = 14695981039346656037ULL;
};

} // namespace

int main() {
  Digest digest;
  optimum::Solver solver;
  for (std::uint64_t seed = 0; seed < 600; ++seed)
    digest.add(solver.solve(tests::RandomProblem(seed).make({})));
  for (std::uint64_t seed = 0; seed < 300; ++seed)
    digest.add(solver.solve(tests::RandomProblem(seed).make({6, 9, 8, 40, 12})));
  for (std::size_t family = 0; family < tests::exact::family_names.size(); ++family)
    for (std::uint64_t seed = 0; seed < 30; ++seed)
      digest.add(solver.solve(tests::exact::make_problem(static_cast<tests::exact::Family>(family), seed)));
  std::printf("%016llx\n", digest.value());
}
