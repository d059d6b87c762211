// SPDX-License-Identifier: GPL-3.0-or-later
// Prints how much work large and hostile jobs take, by what it is for, in millions of steps as the program counts them:
// the same on every machine. "refused": more than the plan itself may take; "*": the rest of that advice is left out.

#include "tests/hostile_job.hpp"

#include "cli/job/read_job.hpp"
#include "solver/advice/budget.hpp"
#include "solver/plan/drawn.hpp"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <string>
#include <variant>
#include <vector>

namespace {

using namespace gatherwright;

using What = note::LeftOut::What;

/// Whether a plan says that this was left out of it.
bool leaves_out(const PlanOutcome &outcome, What what) {
  const Plan *plan = outcome ? &*outcome : nullptr;
  return plan && std::any_of(plan->notes.begin(), plan->notes.end(), [what](const Note &note) {
           const auto *left_out = std::get_if<note::LeftOut>(&note);
           return left_out && left_out->what == what;
         });
}

void column(const optimum::Work &work, bool left_out) {
  std::printf(" %10.3f%c", static_cast<double>(work.done()) / 1e6, left_out ? '*' : ' ');
}

void measure(const char *what, int size, const std::string &text) {
  auto read = cli::read_job(text);
  if (!read) {
    std::printf("%-28s %6d  does not read: %s\n", what, size, read.fault().front().fault.what.c_str());
    return;
  }
  const Job job = (*std::move(read)).job;
  auto drawn = draw_edges(job);
  advice::Budget budget;
  const std::clock_t start = std::clock();
  const PlanOutcome outcome = advice::plan_within(job, {}, *drawn, {}, budget);
  const double seconds = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
  std::printf("%-28s %6d", what, size);
  column(budget.numbers, false);
  column(budget.conflict, leaves_out(outcome, What::conflict));
  column(budget.words, leaves_out(outcome, What::remedies) && budget.words.spent());
  column(budget.rooms, leaves_out(outcome, What::rooms));
  column(budget.sensitivity, leaves_out(outcome, What::sensitivity));
  column(budget.remedies, leaves_out(outcome, What::remedies) && budget.remedies.left() == 0);
  std::printf(" %8.2f s%s\n", seconds, outcome ? "" : " refused");
  std::fflush(stdout);
}

} // namespace

int main(int count, char **arguments) {
  std::printf("%-28s %6s %11s %11s %11s %11s %11s %11s\n", "job", "size", "plan ", "conflict ", "words ", "rooms ",
              "sensitive ", "remedies ");
  for (const int n : {10, 30, 90, 300})
    measure("bad joins, free lengths", n, hostile::bad_joins(n));
  for (const int n : {10, 30, 90, 300})
    measure("bad joins sharing 9 lengths", n, hostile::bad_joins_sharing(n, 9));
  for (const int n : {20, 50, 100, 200, 400, 1000})
    measure("segments too full", n, hostile::full_segments(n));
  for (const int n : {1, 10, 20})
    measure("bad joins, 9,990 marks each", n, hostile::bad_joins_of_many_marks(n));
  for (const int n : {100, 300, 1000})
    measure("ring of rules, <=", n, hostile::ring_of_rules(n, "<="));
  for (const int n : {100, 300, 1000})
    measure("ring of rules, =", n, hostile::ring_of_rules(n, "="));
  for (const int n : {100, 300, 1000})
    measure("ring of rules that conflict", n, hostile::ring_of_rules(n, "<=", " - 1 cm"));
  for (const int n : {100, 400, 1000})
    measure("joins within limits", n, hostile::joins_within_limits(n));
  for (const int n : {100, 400, 1000})
    measure("joins in a ring", n, hostile::joins_in_a_ring(n));
  for (const int n : {100, 400, 1000})
    measure("joins at risk", n, hostile::joins_at_risk(n));
  for (const int n : {10, 30, 100, 300})
    measure("rooms found by planning", n, hostile::fading_joins(n));
  for (const int n : {1000, 3000, 10000})
    measure("rule of terms, free lengths", n, hostile::rule_of_terms(n, n, true));
  for (const int n : {1000, 10000, 100000})
    measure("rule of terms, fixed lengths", n, hostile::rule_of_terms(n, n, false));
  for (const int n : {1000, 10000, 30000})
    measure("fixed lengths", n, hostile::fixed_lengths(n, false));
  for (const int n : {1000, 10000, 30000})
    measure("fixed lengths, one too much", n, hostile::fixed_lengths(n, true));
  for (const int n : {1000, 3000, 30000})
    measure("chain of lengths", n, hostile::chain_of_lengths(n));
  for (const int n : {1000, 2500, 10000})
    measure("sums of lengths", n, hostile::sums_of_lengths(n));
  for (const int n : {1000, 10000, 30000})
    measure("free lengths", n, hostile::free_lengths(n));
  for (const int n : {50, 100, 200, 400})
    measure("lengths that conflict", n, hostile::conflicting_lengths(n));
  for (const int n : {100, 200, 400})
    measure("joins, lengths, rules tied", n, hostile::tied_joins(n, n / 5, n));
  // Minutes: only where it is asked for.
  if (count > 1 && std::string(arguments[1]) == "large")
    measure("joins, lengths, rules tied", 1000, hostile::tied_joins(1000, 200, 1000));
  return EXIT_SUCCESS;
}
