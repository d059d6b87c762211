// SPDX-License-Identifier: GPL-3.0-or-later
// Holds the solver beside the exact one on random problems of each family, and counts:
//   differential [--problems N] [--from SEED] [--family NAME] [--show]
// wrong: answered and wrong; certified: wrong and called good, or a conflict told that is none; alarms: right and not
// called good; refused: neither an answer nor a conflict; bent: better than the best, by what level 0 may be off;
// conflicts: exactly; determined: whose unknowns were held beside the exact ones too. --show names each problem that is
// not right. Ends with status 1 where an answer is wrong and called good.

#include "solver/optimum/solver.hpp"
#include "tests/solver/optimum/exact/comparison.hpp"
#include "tests/solver/optimum/exact/families.hpp"

#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string_view>

using namespace gatherwright;
using namespace gatherwright::tests::exact;

namespace {

struct Asked {
  std::uint64_t problems = 2000;
  std::uint64_t from = 0;
  std::string_view family;
  bool show = false;
  bool print = false;
};

struct Counts {
  int wrong = 0;
  int wrong_and_certified = 0;
  int false_alarms = 0;
  int refused = 0;
  int bent = 0;
  int conflicts = 0;
  int determined = 0;
};

void print_rows(const char *name, const optimum::Rows &rows) {
  for (int i = 0; i < rows.size(); ++i) {
    std::printf("    %-8s", name);
    for (const optimum::Term &term : rows.row(i))
      std::printf(" %+.17g x%d", term.value, term.column);
    std::printf(" | %.17g\n", rows.bound[i]);
  }
}

void print(const optimum::Problem &problem, const optimum::Solution &solution, const Answer &exact) {
  print_rows("equal", problem.equal);
  print_rows("at_least", problem.at_least);
  print_rows("limit", problem.limits);
  for (const optimum::Rows &wishes : problem.wishes)
    print_rows("wish", wishes);
  for (std::size_t column = 0; column < solution.x.size(); ++column)
    std::printf("    x%zu = %.17g, exactly %.17g%s\n", column, solution.x[column],
                exact.feasible ? exact.x[column].get_d() : 0, exact.feasible && exact.loose[column] ? " loose" : "");
}

Counts count(Family family, const Asked &asked) {
  Counts counts;
  const std::string_view name = family_names[static_cast<std::size_t>(family)];
  for (std::uint64_t seed = asked.from; seed < asked.from + asked.problems; ++seed) {
    const optimum::Problem problem = make_problem(family, seed);
    optimum::Solver solver;
    const optimum::Solution &solution = solver.solve(problem);
    const Answer exact = solve(problem);
    const Verdict verdict = compare(problem, solution, exact);
    const bool false_alarm = !verdict.wrong && !verdict.refused && !verdict.certified;
    counts.wrong += verdict.wrong && !verdict.refused;
    counts.wrong_and_certified += verdict.wrong && verdict.certified;
    counts.false_alarms += false_alarm;
    counts.refused += verdict.refused;
    counts.bent += verdict.bent;
    counts.conflicts += !exact.feasible;
    counts.determined += verdict.determined;
    if (asked.show && (verdict.wrong || false_alarm || verdict.refused)) {
      std::printf("  %.*s %llu: status %d, residual %.1e%s%s%s; %s by %.1e\n", static_cast<int>(name.size()),
                  name.data(), static_cast<unsigned long long>(seed), static_cast<int>(solution.status),
                  verdict.residual, verdict.wrong ? ", WRONG" : "", verdict.certified ? ", certified" : "",
                  verdict.refused ? ", refused" : "", verdict.what.empty() ? "right" : verdict.what.c_str(),
                  verdict.worst);
      if (asked.print) print(problem, solution, exact);
    }
  }
  return counts;
}

bool read_arguments(int argc, char **argv, Asked &asked) {
  for (int i = 1; i < argc; ++i) {
    const std::string_view word = argv[i];
    if (word == "--show" || word == "--print") {
      asked.show = true;
      asked.print = asked.print || word == "--print";
      continue;
    }
    if (++i == argc) return false;
    if (word == "--problems")
      asked.problems = std::strtoull(argv[i], nullptr, 10);
    else if (word == "--from")
      asked.from = std::strtoull(argv[i], nullptr, 10);
    else if (word == "--family")
      asked.family = argv[i];
    else
      return false;
  }
  return true;
}

} // namespace

int main(int argc, char **argv) {
  Asked asked;
  if (!read_arguments(argc, argv, asked)) {
    std::fputs("differential [--problems N] [--from SEED] [--family NAME] [--show | --print]\n", stderr);
    return 2;
  }
  std::printf("%-22s %8s %8s %10s %8s %8s %6s %10s %10s\n", "family", "problems", "wrong", "certified", "alarms",
              "refused", "bent", "conflicts", "determined");
  int wrong_and_certified = 0;
  for (std::size_t i = 0; i < family_names.size(); ++i) {
    if (!asked.family.empty() && asked.family != family_names[i]) continue;
    const Counts counts = count(static_cast<Family>(i), asked);
    std::printf("%-22s %8llu %8d %10d %8d %8d %6d %10d %10d\n", family_names[i].data(),
                static_cast<unsigned long long>(asked.problems), counts.wrong, counts.wrong_and_certified,
                counts.false_alarms, counts.refused, counts.bent, counts.conflicts, counts.determined);
    std::fflush(stdout);
    wrong_and_certified += counts.wrong_and_certified;
  }
  return wrong_and_certified == 0 ? 0 : 1;
}
