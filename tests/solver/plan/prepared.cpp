// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/draft.hpp"
#include "tests/numbers.hpp"

#include <limits>
#include <optional>
#include <thread>
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
    const PlanOutcome from_prepared = prepared->plan(job);
    const Plan &plan = *from_prepared;
    CHECK(numbers_of(plan) == numbers_of(plan_of(job)));
    const double sleeve = plan.lengths[0].found.value().exact;
    const double cuff = plan.lengths[1].found.value().exact;
    CHECK(sleeve == Approx(cuff * 600 / (1.5 * wrist)).epsilon(1e-12));
    sleeves.push_back(sleeve / cuff);
  }
  CHECK(sleeves[0] > sleeves[1]);
  CHECK(sleeves[1] > sleeves[2]);
}

TEST_CASE("what is wrong with a wearer is told from what was prepared as of the job alone") {
  Job job =
      job_of({.measures = {{"arm", cm(60)}, {"wrist", cm(17)}},
              .lengths = {{.name = "sleeve", .from = "20 cm", .to = "arm + 30 cm"}, {"cuff", "2 * wrist - 10 cm"}},
              .rules = {"sleeve >= arm / (wrist - 5 cm) * 1 cm"},
              .joins = {{"sleeve into cuff", "sleeve", "cuff"}}});
  const auto prepared = *Prepared::prepare(job);
  const double none = std::numeric_limits<double>::quiet_NaN();
  int faults = 0;
  for (const double arm : {600.0, none, -1.0, 0.0, 1e300})
    for (const double wrist : {170.0, none, -3.0, 50.0, 0.0, 1e9})
      for (const std::optional<double> age : {std::optional<double>(), {40}, {-1}, {none}, {1e6}}) {
        job.measures[0].is.mm = arm;
        job.measures[1].is.mm = wrist;
        job.wearer_age = age;
        const PlanOutcome from_prepared = prepared.plan(job);
        const PlanOutcome alone = plan(job);
        REQUIRE(static_cast<bool>(from_prepared) == static_cast<bool>(alone));
        if (alone) continue;
        REQUIRE(from_prepared.fault().size() == alone.fault().size());
        for (std::size_t i = 0; i < alone.fault().size(); ++i) {
          const auto *placed = std::get_if<PlacedFault>(&alone.fault()[i]);
          REQUIRE(from_prepared.fault()[i].index() == alone.fault()[i].index());
          if (!placed) continue;
          ++faults;
          CHECK(std::get<PlacedFault>(from_prepared.fault()[i]).fault == placed->fault);
          CHECK(std::get<PlacedFault>(from_prepared.fault()[i]).place.index() == placed->place.index());
        }
      }
  CHECK(faults > 200);
}

TEST_CASE("no plan from what was prepared depends on one made before, or at the same time") {
  // Some of these wrists are within limits, for some the sleeve is too full or the rules conflict.
  Job job = job_of({.measures = {{"wrist", cm(17)}},
                    .lengths = {{.name = "sleeve", .from = "30 cm", .to = "60 cm"}, {"cuff", "wrist + 3 cm"}},
                    .rules = {"sleeve >= 2 * cuff"},
                    .joins = {{"sleeve into cuff", "sleeve", "cuff"}}});
  std::vector<Job> wearers;
  for (double wrist = 60; wrist < 330; wrist += 9) {
    job.measures[0].is.mm = wrist;
    wearers.push_back(job);
  }
  const auto prepared = *Prepared::prepare(job);
  const auto numbers = [&prepared](const Job &wearer) { return numbers_of(*prepared.plan(wearer)); };
  std::vector<std::vector<double>> alone;
  for (const Job &wearer : wearers)
    alone.push_back(numbers_of(plan_of(wearer)));
  std::vector<std::vector<std::vector<double>>> together(4, std::vector<std::vector<double>>(wearers.size()));
  {
    std::vector<std::jthread> working;
    for (std::size_t thread = 0; thread < together.size(); ++thread)
      working.emplace_back([&, thread] {
        // Each in another order.
        for (std::size_t i = 0; i < wearers.size(); ++i) {
          const std::size_t wearer = (i * (2 * thread + 1) + thread) % wearers.size();
          together[thread][wearer] = numbers(wearers[wearer]);
        }
      });
  }
  for (std::size_t thread = 0; thread < together.size(); ++thread)
    for (std::size_t wearer = 0; wearer < wearers.size(); ++wearer)
      if (!together[thread][wearer].empty()) CHECK(together[thread][wearer] == alone[wearer]);
  CHECK(together[0] == alone);
}
