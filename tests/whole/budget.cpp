// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/budget.hpp"
#include "solver/plan/drawn.hpp"
#include "tests/good_jobs.hpp"
#include "tests/hostile_job.hpp"
#include "tests/made_job.hpp"
#include "tests/outcomes.hpp"
#include "tests/told.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace gatherwright;
using optimum::Work;

namespace {

using What = note::LeftOut::What;

constexpr What all_left_out[] = {What::rooms, What::sensitivity, What::remedies, What::conflict};

/// Whether a plan says that this was left out.
bool says(const Plan &plan, What what) {
  return tests::count(plan.notes, what) > 0;
}

PlanOutcome planned(const Job &job, advice::Budget &budget) {
  const auto edges = draw_edges(job);
  return advice::plan_within(job, {}, *edges, {}, budget);
}

Plan plan_of(const Job &job, advice::Budget &budget) {
  PlanOutcome outcome = planned(job, budget);
  REQUIRE(static_cast<bool>(outcome));
  return *std::move(outcome);
}

refusal::TooMuch refused(const Job &job, advice::Budget budget = {}) {
  return tests::only_refusal<refusal::TooMuch>(planned(job, budget));
}

/// A budget of unbounded work.
advice::Budget without_bound() {
  advice::Budget budget;
  for (Work *work :
       {&budget.numbers, &budget.conflict, &budget.words, &budget.rooms, &budget.sensitivity, &budget.remedies})
    *work = Work();
  return budget;
}

} // namespace

TEST_CASE("hostile jobs are answered, and it is said what is left out") {
  struct Hostile {
    const char *what;
    std::string text;
  };
  const Hostile jobs[] = {
      {"30 bad joins with free lengths", hostile::bad_joins(30)},
      {"90 bad joins with free lengths", hostile::bad_joins(90)},
      {"300 bad joins with free lengths", hostile::bad_joins(300)},
      {"300 bad joins that share lengths", hostile::bad_joins_sharing(300, 9)},
      {"200 segments too full", hostile::full_segments(200)},
      {"20 bad joins of 9,990 marks", hostile::bad_joins_of_many_marks(20)},
      {"500 rules in a ring", hostile::ring_of_rules(500, "<=")},
      {"1,000 equal lengths in a ring", hostile::ring_of_rules(1000, "=")},
      {"500 rules in a ring that conflict", hostile::ring_of_rules(500, "<=", " - 1 cm")},
      {"400 joins within limits", hostile::joins_within_limits(400)},
      {"400 joins in a ring", hostile::joins_in_a_ring(400)},
      {"400 joins at risk", hostile::joins_at_risk(400)},
      {"300 joins whose rooms are found by planning", hostile::fading_joins(300)},
      {"a rule of 10,000 terms, fixed", hostile::rule_of_terms(10'000, 10'000, false)},
      {"a rule of 10,000 terms, of 200 free lengths", hostile::rule_of_terms(10'000, 200, true)},
      {"30,000 lengths", hostile::fixed_lengths(30'000, false)},
      {"30,000 lengths, one of them too much", hostile::fixed_lengths(30'000, true)},
      {"30,000 lengths, each made of the one before", hostile::chain_of_lengths(30'000)},
      {"30,000 free lengths", hostile::free_lengths(30'000)},
      {"a conflict among 200 lengths", hostile::conflicting_lengths(200)},
      {"a conflict among 400 lengths", hostile::conflicting_lengths(400)},
  };
  for (const Hostile &each : jobs) {
    INFO(each.what);
    const Job job = tests::job_of(each.text);
    advice::Budget budget;
    Plan plan;
    plan = plan_of(job, budget); // the bench `work` shows what that takes
    CHECK(budget.rooms.spent() == says(plan, What::rooms));
    CHECK(budget.sensitivity.spent() == says(plan, What::sensitivity));
    if (budget.words.spent()) CHECK(says(plan, What::remedies));
    for (const What what : all_left_out)
      CHECK(tests::count(plan.notes, what) <= 1);
  }
}

TEST_CASE("of what people sew nothing is left out by far") {
  for (const Job &job : tests::good_jobs()) {
    advice::Budget budget;
    const PlanOutcome outcome = planned(job, budget);
    if (const auto *plan = tests::value_in(outcome)) CHECK(tests::count<note::LeftOut>(plan->notes) == 0);
    for (const Work *work :
         {&budget.numbers, &budget.conflict, &budget.words, &budget.rooms, &budget.sensitivity, &budget.remedies})
      CHECK(work->done() <= work->most() / 20);
  }
}

TEST_CASE("a job is the same work each time") {
  for (const std::string &text :
       {hostile::bad_joins(12), hostile::joins_at_risk(12), hostile::conflicting_lengths(60)}) {
    const Job job = tests::job_of(text);
    advice::Budget one = without_bound();
    advice::Budget other = without_bound();
    const Plan first = plan_of(job, one);
    CHECK(first.remedies.size() == plan_of(job, other).remedies.size());
    CHECK(one.numbers.done() == other.numbers.done());
    CHECK(one.conflict.done() == other.conflict.done());
    CHECK(one.words.done() == other.words.done());
    CHECK(one.rooms.done() == other.rooms.done());
    CHECK(one.sensitivity.done() == other.sensitivity.done());
    CHECK(one.remedies.done() == other.remedies.done());
  }
}

TEST_CASE("a job that takes more than its bound is refused, and the bound is named") {
  advice::Budget little;
  little.numbers = Work(2'000'000);
  using Of = refusal::TooMuch::Of;
  const refusal::TooMuch steps = refused(tests::job_of(hostile::ring_of_rules(100, "<=")), little);
  CHECK(steps.of == Of::steps);
  CHECK(steps.most == 2'000'000);
  const refusal::TooMuch numbers = refused(tests::job_of(hostile::full_segments(2000)));
  CHECK(numbers.of == Of::numbers);
  CHECK(numbers.most / 1'000'000 == 8);
  const refusal::TooMuch conditions = refused(tests::job_of(hostile::rule_of_terms(5000, 5000, true)));
  CHECK(conditions.of == Of::conditions);
  CHECK(conditions.most == 4000);
}

TEST_CASE("rooms that are left out are left out from some length on, and the others are as ever") {
  for (const std::string &text :
       {hostile::joins_at_risk(20), hostile::fading_joins(20), hostile::chain_of_lengths(40)}) {
    const Job job = tests::job_of(text);
    advice::Budget all = without_bound();
    const Plan whole = plan_of(job, all);
    REQUIRE_FALSE(says(whole, What::rooms));
    for (const int share : {2, 5}) {
      advice::Budget some = without_bound();
      some.rooms = Work(all.rooms.done() / share);
      const Plan plan = plan_of(job, some);
      CHECK(says(plan, What::rooms));
      int given = 0;
      bool ended = false;
      for (std::size_t i = 0; i < plan.lengths.size(); ++i) {
        const auto &room = plan.lengths[i].room;
        const auto &as_ever = whole.lengths[i].room;
        ended = ended || (as_ever && !room);
        given += room.has_value();
        if (!room) continue;
        REQUIRE(as_ever);
        // Narrowed by planning or not, a room is none too wide.
        if (!ended) CHECK(room->low == as_ever->low);
        if (!ended) CHECK(room->high == as_ever->high);
      }
      CHECK(ended);
      CHECK(given > 0);
    }
  }
}

TEST_CASE("where it is too much to see which length wants the most care, none is named") {
  const Job job = tests::job_of(hostile::joins_at_risk(20));
  advice::Budget all = without_bound();
  CHECK(tests::count<note::MostSensitive>(plan_of(job, all).notes) == 20);
  advice::Budget some = without_bound();
  some.sensitivity = Work(all.sensitivity.done() / 2);
  const Plan plan = plan_of(job, some);
  CHECK(tests::count<note::MostSensitive>(plan.notes) == 0);
  CHECK(says(plan, What::sensitivity));
}

TEST_CASE("remedies that are found before the work is spent do what they say, and each join has its share") {
  const Job job = tests::job_of(hostile::bad_joins_sharing(12, 4));
  advice::Budget all = without_bound();
  const Plan whole = plan_of(job, all);
  REQUIRE(whole.remedies.size() > 12);
  CHECK_FALSE(says(whole, What::remedies));
  for (const int share : {2, 3}) {
    advice::Budget some = without_bound();
    some.remedies = Work(all.remedies.done() / share);
    const Plan plan = plan_of(job, some);
    CHECK(says(plan, What::remedies));
    CHECK(plan.remedies.size() < whole.remedies.size());
    REQUIRE_FALSE(plan.remedies.empty());
    // Those that there are, are among those of a search without end.
    for (const Remedy &remedy : plan.remedies)
      CHECK(std::any_of(whole.remedies.begin(), whole.remedies.end(), [&](const Remedy &other) {
        return remedy.mends == other.mends && tests::same_change(remedy.change, other.change);
      }));
    // The last join is not left to go without.
    CHECK(std::any_of(plan.remedies.begin(), plan.remedies.end(),
                      [](const Remedy &remedy) { return remedy.mends > JoinId(8); }));
  }
}

TEST_CASE("a conflict is told though the work for it is spent") {
  const Job job = tests::job_of(hostile::conflicting_lengths(60));
  advice::Budget all = without_bound();
  const Plan whole = plan_of(job, all);
  CHECK_FALSE(says(whole, What::conflict));
  advice::Budget some = without_bound();
  some.conflict = Work(all.conflict.done() / 3);
  const Plan plan = plan_of(job, some);
  CHECK(says(plan, What::conflict));
  REQUIRE(plan.conflict);
  REQUIRE(whole.conflict);
  CHECK(plan.conflict->conditions.size() >= whole.conflict->conditions.size());
  CHECK(plan.conflict->apart > 0);
}

TEST_CASE("many joins that have nothing to do with each other come out as each by itself") {
  const Plan one = tests::plan_of(hostile::joins_within_limits(1));
  const Plan many = tests::plan_of(hostile::joins_within_limits(30));
  REQUIRE(many.joins.size() == 30);
  for (std::size_t j = 0; j < many.joins.size(); ++j) {
    CHECK(many.joins[j].long_length == Approx(one.joins[0].long_length).epsilon(1e-12));
    CHECK(many.joins[j].band == Approx(one.joins[0].band).epsilon(1e-12));
    CHECK(many.lengths[2 * j].found.value().exact == Approx(one.lengths[0].found.value().exact).epsilon(1e-9));
    CHECK(many.lengths[2 * j].is == one.lengths[0].is);
    CHECK(many.lengths[2 * j + 1].is == one.lengths[1].is);
  }
  CHECK(many.certificate->stationarity <= 1e-9);
  CHECK(many.certificate->feasibility <= 1e-9);
}
