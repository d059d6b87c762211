// SPDX-License-Identifier: GPL-3.0-or-later
#include "good_jobs.hpp"
#include "report/plan_json.hpp"

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
    for (const double number : {length.is, length.exact, length.room ? length.room->low.value_or(-1) : -2,
                                length.room ? length.room->high.value_or(-1) : -2})
      numbers.push_back(number);
  for (const JoinPlan &join : plan.joins) {
    for (const SegmentPlan &segment : join.segments)
      for (const double number : {segment.from, segment.long_from, segment.long_length, segment.band, segment.fullness,
                                  segment.fullest, segment.slackest, segment.ridge})
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
      CHECK(numbers_of(std::get<Plan>(from_prepared)) == numbers_of(std::get<Plan>(alone)));
      CHECK(report::plan_json(wearer, std::get<Plan>(from_prepared)) ==
            report::plan_json(wearer, std::get<Plan>(alone)));
    }
  }
  CHECK(plans > 100);
}
