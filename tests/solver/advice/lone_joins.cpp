// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/lone_joins.hpp"

#include "solver/advice/change.hpp"
#include "solver/plan/planner.hpp"
#include "tests/draft.hpp"
#include "tests/solver/advice/random_job.hpp"

#include <catch2/catch.hpp>
#include <random>

using namespace gatherwright;
using namespace gatherwright::tests;

TEST_CASE("a join by itself, in figures, is planned to the bit as it is in the job with every length held") {
  std::mt19937_64 random(11);
  const DrawnEdges none_drawn;
  int compared = 0;
  for (int n = 0; n < 300; ++n) {
    const Job job = job_of(random_advice_job(random, true));
    const PlanOutcome outcome = plan(job, {.advice = false});
    if (!outcome || outcome->conflict) continue;
    const advice::LoneJoins joins(job, *outcome, none_drawn);
    Job held = advice::with_lengths_held(job, *outcome);
    held.rules.clear();
    for (int j = 0; j < static_cast<int>(job.joins.size()); ++j) {
      INFO("job " << n << ", join " << j);
      const advice::LoneJoin lone = joins.lone(JoinId(j));
      CHECK(lone.job.symbols() == Job().symbols());
      CHECK(joins.as_written(JoinId(j)).segments.size() == job.joins[j].segments.size());
      Job of_one = held;
      of_one.joins = {held.joins[j]};
      const PlanOutcome by_itself = plan_numbers(lone.job, lone.edges);
      const PlanOutcome in_job = plan_numbers(of_one, none_drawn);
      REQUIRE(static_cast<bool>(by_itself) == static_cast<bool>(in_job));
      if (!in_job) continue;
      REQUIRE(by_itself->joins.size() == 1);
      CHECK(by_itself->verdict == in_job->verdict);
      for (std::size_t s = 0; s < job.joins[j].segments.size(); ++s) {
        CHECK(by_itself->joins[0].segments[s].long_length == in_job->joins[0].segments[s].long_length);
        CHECK(by_itself->joins[0].segments[s].band == in_job->joins[0].segments[s].band);
        CHECK(by_itself->joins[0].segments[s].fullest == in_job->joins[0].segments[s].fullest);
      }
      ++compared;
    }
  }
  CHECK(compared > 200);
}
