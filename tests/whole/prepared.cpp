// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/plan_json.hpp"
#include "tests/good_jobs.hpp"
#include "tests/numbers.hpp"

#include <variant>
#include <vector>

using namespace gatherwright;
using namespace gatherwright::tests;

TEST_CASE("a wearer planned from what was prepared gets the plan of a job with those measures, to the bit") {
  int plans = 0;
  int not_plans = 0;
  for (const Job &job : good_jobs()) {
    const auto prepared = Prepared::prepare(job);
    REQUIRE(static_cast<bool>(prepared));
    for (const double by : {0.0, 3.0, -7.3, 41.0, -60.0}) {
      Job wearer = job;
      for (std::size_t m = 0; m < wearer.measures.size(); ++m)
        wearer.measures[m].is.mm += by * (m % 2 == 0 ? 1 : 0.4);
      const PlanOutcome from_prepared = prepared->plan(wearer);
      const PlanOutcome alone = plan(wearer);
      REQUIRE(static_cast<bool>(from_prepared) == static_cast<bool>(alone));
      if (!alone) {
        ++not_plans;
        CHECK(from_prepared.fault().size() == alone.fault().size());
        continue;
      }
      ++plans;
      const Plan &first = *from_prepared;
      const Plan &second = *alone;
      CHECK(numbers_of(first) == numbers_of(second));
      CHECK(report::plan_json(wearer, first) == report::plan_json(wearer, second));
    }
  }
  CHECK(plans > 100);
}
