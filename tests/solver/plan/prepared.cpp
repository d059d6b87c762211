// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/draft.hpp"
#include "tests/numbers.hpp"

#include <variant>
#include <vector>

using namespace gatherwright;
using namespace gatherwright::tests;

TEST_CASE(
    "where a measure alters a coefficient of what must hold, the plan is still that of the job alone, to the bit") {
  Job job = job_of({.measures = {{"arm", cm(60)}, {"wrist", cm(17)}},
                    .lengths = {{.name = "sleeve", .from = "20 cm", .to = "90 cm"},
                                {.name = "cuff", .from = "15 cm", .to = "40 cm", .aim = "wrist + 4.3 cm"}},
                    .rules = {"sleeve = cuff * arm / (1.5 * wrist)"},
                    .joins = {{"sleeve into cuff", "sleeve", "cuff"}}});
  const auto prepared = Prepared::prepare(job);
  std::vector<double> sleeves;
  for (const double wrist : {170.0, 181.0, 193.0}) {
    job.measures[1].is.mm = wrist;
    const PlanOutcome from_prepared = std::get<Prepared>(prepared).plan(job);
    const Plan &plan = std::get<Plan>(from_prepared);
    CHECK(numbers_of(plan) == numbers_of(plan_of(job)));
    const double sleeve = plan.lengths[0].found.value().exact;
    const double cuff = plan.lengths[1].found.value().exact;
    CHECK(sleeve == Approx(cuff * 600 / (1.5 * wrist)).epsilon(1e-12));
    sleeves.push_back(sleeve / cuff);
  }
  CHECK(sleeves[0] > sleeves[1]);
  CHECK(sleeves[1] > sleeves[2]);
}
