// SPDX-License-Identifier: GPL-3.0-or-later
#include "made_job.hpp"
#include "solver/advice/linear_program.hpp"
#include "solver/advice/random_job.hpp"

#include "advice/change.hpp"
#include "allot/scheme.hpp"

#include <cmath>

using namespace gatherwright;

namespace {

/// The verdict with one length set and every other free length held as found.
bool within_limits_at(const Job &job, const Plan &plan, int length, double value) {
  Job changed = job;
  for (std::size_t i = 0; i < changed.lengths.size(); ++i) {
    NamedLength &other = changed.lengths[i];
    if (static_cast<int>(i) != length && !other.free) continue;
    other.free = false;
    other.is = fixed_formula({static_cast<int>(i) == length ? value : plan.lengths[i].is}, "");
  }
  PlanOutcome outcome = gatherwright::plan(changed, {.profile = false, .advice = false});
  const auto *made = std::get_if<Plan>(&outcome);
  return made && made->verdict == Verdict::within_limits;
}

/// The same job, planned; nothing where it is at fault or its rules conflict.
std::optional<Plan> planned(const Job &job) {
  PlanOutcome outcome = gatherwright::plan(job);
  auto *made = std::get_if<Plan>(&outcome);
  if (!made || made->verdict == Verdict::rules_conflict) return std::nullopt;
  return std::move(*made);
}

} // namespace

TEST_CASE("a length just inside its room is within limits, just outside it is not") {
  std::mt19937_64 random(11);
  int ends = 0;
  for (int trial = 0; trial < 250; ++trial) {
    const Job job = tests::job_of(tests::random_advice_job(random, true));
    const std::optional<Plan> plan = planned(job);
    if (!plan) continue;
    for (std::size_t i = 0; i < plan->lengths.size(); ++i) {
      const auto &room = plan->lengths[i].room;
      if (!room) continue;
      INFO("trial " << trial << ", length " << job.lengths[i].name);
      const int length = static_cast<int>(i);
      const double low = room->low.value_or(0);
      const double high = room->high.value_or(low + 1000);
      CHECK(low <= high);
      const double step = 1e-6 * std::max(high, 1.0);
      if (high - low > 4 * step) CHECK(within_limits_at(job, *plan, length, low + (low > 0 ? step : 4 * step)));
      if (high - low > 4 * step) CHECK(within_limits_at(job, *plan, length, high - step));
      // A free length's own range is no part of the job once the length is held, so its ends are checked elsewhere.
      if (job.lengths[i].free) continue;
      if (room->low && low - step > 0) {
        CHECK_FALSE(within_limits_at(job, *plan, length, low - step));
        ++ends;
      }
      if (room->high) {
        CHECK_FALSE(within_limits_at(job, *plan, length, high + step));
        ++ends;
      }
    }
  }
  CHECK(ends > 200);
}

TEST_CASE("rooms are the ranges that a linear program finds") {
  std::mt19937_64 random(12);
  int compared = 0;
  int without = 0;
  for (int trial = 0; trial < 250; ++trial) {
    const Job job = tests::job_of(tests::random_advice_job(random));
    const std::optional<Plan> plan = planned(job);
    if (!plan) continue;
    std::vector<double> lengths;
    for (const LengthPlan &length : plan->lengths)
      lengths.push_back(length.is);
    std::vector<int> joins;
    for (std::size_t j = 0; j < job.joins.size(); ++j)
      joins.push_back(static_cast<int>(j));
    for (std::size_t i = 0; i < lengths.size(); ++i) {
      INFO("trial " << trial << ", length " << job.lengths[i].name);
      allot::Question question;
      question.subject.length = static_cast<int>(i);
      question.planned = lengths;
      question.joins = joins;
      const auto asked = allot::scheme(job, question);
      REQUIRE(asked);
      std::vector<double> cost(asked->scheme.problem.unknowns, 0);
      cost[asked->column] = 1;
      const tests::Least low = tests::least_by_glpk(asked->scheme.problem, cost);
      cost[asked->column] = -1;
      const tests::Least high = tests::least_by_glpk(asked->scheme.problem, cost);
      const auto &room = plan->lengths[i].room;
      // Rules of other lengths are no rows of the question: where one is broken there is no room at all.
      const bool rules_hold =
          std::all_of(plan->rules.begin(), plan->rules.end(), [](const RulePlan &rule) { return rule.holds; });
      if (!low.feasible) {
        CHECK_FALSE(room);
        ++without;
        continue;
      }
      if (!room) {
        CHECK_FALSE(rules_hold);
        continue;
      }
      // GLPK's simplex is feasible to 1e-7 of the numbers; rooms are compared to 1e-6 of them.
      CHECK(room->low.has_value());
      CHECK(room->low.value_or(-1) == Approx(low.value).epsilon(1e-6).margin(1e-4));
      CHECK(room->high.has_value() == high.bounded);
      if (high.bounded) CHECK(room->high.value_or(-1) == Approx(-high.value).epsilon(1e-6).margin(1e-4));
      ++compared;
    }
  }
  CHECK(compared > 150);
  CHECK(without > 100);
}

TEST_CASE("a length on which another depends otherwise than in proportion has no room") {
  const Plan plan = tests::plan_of(R"job({"lengths": {"a": "80 cm", "b": "max(a / 2, 30 cm)", "c": "40 cm"},
    "joins": [{"name": "x", "long": "a", "band": "b"}, {"name": "y", "long": "a", "band": "c"}]})job");
  CHECK_FALSE(plan.lengths[0].room);
  CHECK(plan.lengths[2].room);
}

TEST_CASE("a length that nothing depends on may be anything from nothing up") {
  const Plan plan =
      tests::plan_of(R"({"lengths": {"pocket": "14 cm"}, "joins": [{"name": "x", "long": "44 cm", "band": "20 cm"}]})");
  REQUIRE(plan.lengths[0].room);
  CHECK(plan.lengths[0].room->low == Approx(0));
  CHECK_FALSE(plan.lengths[0].room->high);
}

TEST_CASE("the room of a band ends where what it leaves a fading stretch is no longer than the fade") {
  // Two stretches of as much cloth share the band equally, so the one that fades over 12 cm needs 24 cm for both; by
  // the limits alone 18.9 cm would do.
  const std::string rest = R"("joins": [{"name": "x", "long": "36.8 cm", "band": "b", "segments": [
    {"long": "18.4 cm", "spread": {"fade": ["6 cm", "6 cm"]}}, {"long": "18.4 cm"}]}]})";
  for (const char *band : {"25 cm", "32 cm"}) { // within limits, and too scant
    const Plan plan =
        tests::plan_of(R"({"fabric": {"weight": "165 g/m2"}, "lengths": {"b": ")" + std::string(band) + "\"}, " + rest);
    REQUIRE(plan.lengths[0].room);
    CHECK(plan.lengths[0].room->low == Approx(240).epsilon(1e-8));
    CHECK(plan.lengths[0].room->high == Approx(368 / 1.18));
  }
}

TEST_CASE("hundreds of fades whose bands are found are planned within seconds, with rooms for those that come first") {
  std::string lengths, joins;
  for (int i = 0; i < 200; ++i) {
    const std::string band = "b" + std::to_string(i);
    lengths += (i ? ", \"" : "\"") + band + "\": \"25 cm\"";
    joins += std::string(i ? ", " : "") + R"({"name": "x)" + std::to_string(i) + R"(", "long": "36.8 cm", "band": ")" +
             band +
             R"(", "segments": [{"long": "18.4 cm", "spread": {"fade": ["6 cm", "6 cm"]}}, {"long": "18.4 cm"}]})";
  }
  const Plan plan = tests::plan_of(R"({"fabric": {"weight": "165 g/m2"}, "lengths": {)" + lengths + R"(}, "joins": [)" +
                                   joins + "]}");
  REQUIRE(plan.lengths.front().room);
  CHECK(plan.lengths.front().room->low == Approx(240).epsilon(1e-8));
  CHECK_FALSE(plan.lengths.back().room);
}
