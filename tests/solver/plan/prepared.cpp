// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/plan_json.hpp"
#include "tests/good_jobs.hpp"

#include <array>
#include <string>
#include <variant>
#include <vector>

using namespace gatherwright;

namespace {

/// Everything that depends on measures, every bit of it: what a plan's text rounds away too.
std::vector<double> numbers_of(const Plan &plan) {
  std::vector<double> numbers;
  for (const LengthPlan &length : plan.lengths)
    for (const double number :
         {length.is.value_or(-1), length.found ? length.found->exact : -1,
          length.room ? length.room->low.value_or(-1) : -2, length.room ? length.room->high.value_or(-1) : -2})
      numbers.push_back(number);
  for (const JoinPlan &join : plan.joins) {
    for (const SegmentPlan &segment : join.segments)
      for (const double number : {segment.from, segment.long_from, segment.long_length, segment.band, segment.fullness,
                                  segment.fullest, segment.slackest, segment.gathers ? segment.gathers->ridge : -1})
        numbers.push_back(number);
    for (const Mark &mark : join.marks)
      for (const MarkPlace *place : {&mark.long_edge, &mark.band}) {
        numbers.push_back(place->exact);
        numbers.push_back(place->tape);
      }
  }
  if (plan.certificate)
    for (const double number :
         {plan.certificate->feasibility, plan.certificate->stationarity, plan.certificate->complementarity})
      numbers.push_back(number);
  return numbers;
}

/// Both are plans.
void check_same(const PlanOutcome &a, const PlanOutcome &b, const Job &job) {
  const Plan &first = std::get<Plan>(a);
  const Plan &second = std::get<Plan>(b);
  CHECK(numbers_of(first) == numbers_of(second));
  CHECK(report::plan_json(job, first) == report::plan_json(job, second));
}

} // namespace

TEST_CASE("a wearer planned from what was prepared gets the plan of a job with those measures, to the bit") {
  int plans = 0;
  int not_plans = 0;
  for (const Job &job : tests::good_jobs()) {
    const auto prepared = Prepared::prepare(job);
    REQUIRE(std::holds_alternative<Prepared>(prepared));
    for (const double by : {0.0, 3.0, -7.3, 41.0, -60.0}) {
      Job wearer = job;
      for (std::size_t m = 0; m < wearer.measures.size(); ++m)
        wearer.measures[m].is.mm += by * (m % 2 == 0 ? 1 : 0.4);
      const PlanOutcome from_prepared = std::get<Prepared>(prepared).plan(wearer);
      const PlanOutcome alone = plan(wearer);
      REQUIRE(from_prepared.index() == alone.index());
      if (!std::holds_alternative<Plan>(alone)) {
        ++not_plans;
        CHECK(std::get<std::vector<PlacedFault>>(from_prepared).size() ==
              std::get<std::vector<PlacedFault>>(alone).size());
        continue;
      }
      ++plans;
      check_same(from_prepared, alone, wearer);
    }
  }
  CHECK(plans > 100);
}

TEST_CASE(
    "where a measure alters a coefficient of what must hold, the plan is still that of the job alone, to the bit") {
  Job job = tests::job_of(R"json({ "unit": "cm", "measures": { "arm": 60, "wrist": 17 },
    "lengths": { "sleeve": { "from": 20, "to": 90 }, "cuff": { "from": 15, "to": 40, "aim": "wrist + 4.3 cm" } },
    "rules": [ "sleeve = cuff * arm / (1.5 * wrist)" ],
    "joins": [ { "name": "sleeve into cuff", "long": "sleeve", "band": "cuff" } ] })json");
  const auto prepared = Prepared::prepare(job);
  std::vector<double> sleeves;
  for (const double wrist : {170.0, 181.0, 193.0}) {
    job.measures[1].is.mm = wrist;
    const PlanOutcome from_prepared = std::get<Prepared>(prepared).plan(job);
    check_same(from_prepared, plan(job), job);
    const Plan &plan = std::get<Plan>(from_prepared);
    const double sleeve = plan.lengths[0].found.value().exact;
    const double cuff = plan.lengths[1].found.value().exact;
    CHECK(sleeve == Approx(cuff * 600 / (1.5 * wrist)).epsilon(1e-12));
    sleeves.push_back(sleeve / cuff);
  }
  CHECK(sleeves[0] > sleeves[1]);
  CHECK(sleeves[1] > sleeves[2]);
}
