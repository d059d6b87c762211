// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/draft.hpp"
#include "tests/solver/advice/asked.hpp"
#include "tests/solver/advice/linear_program.hpp"
#include "tests/solver/advice/random_job.hpp"

#include "solver/advice/change.hpp"
#include "solver/allot/scheme.hpp"
#include "tests/outcomes.hpp"

#include <cmath>

using namespace gatherwright;
using namespace gatherwright::tests;

namespace {

/// The verdict with one length set and every other free length held as found.
bool within_limits_at(const Job &job, const Plan &plan, int length, double value) {
  Job changed = job;
  for (std::size_t i = 0; i < changed.lengths.size(); ++i) {
    NamedLength &other = changed.lengths[i];
    if (static_cast<int>(i) != length && !other.free()) continue;
    other.is = Formula::of({static_cast<int>(i) == length ? value : plan.lengths[i].is.value()}, "");
  }
  PlanOutcome outcome = gatherwright::plan(changed, {.profile = false, .advice = false});
  const auto *made = tests::value_in(outcome);
  return made && made->verdict == Verdict::within_limits;
}

/// The same job, planned; nothing where it is at fault or its rules conflict.
std::optional<Plan> planned(const Job &job) {
  PlanOutcome outcome = gatherwright::plan(job);
  auto *made = tests::value_in(outcome);
  if (!made || made->verdict == Verdict::rules_conflict) return std::nullopt;
  return std::move(*made);
}

} // namespace

TEST_CASE("a length just inside its room is within limits, just outside it is not") {
  std::mt19937_64 random(11);
  int ends = 0;
  for (int trial = 0; trial < 700; ++trial) {
    const bool in_pieces = trial >= 250;
    const Job job = job_of(in_pieces ? random_job_with_pieces(random) : random_advice_job(random, true));
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
      if (job.lengths[i].free()) continue;
      // (Where there is nothing below it, an end lies a little above 0.)
      if (room->low && low - step > 1e-3) {
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
    const Job job = job_of(random_advice_job(random));
    const std::optional<Plan> plan = planned(job);
    if (!plan) continue;
    const std::vector<double> lengths = lengths_of(*plan);
    const std::vector<JoinId> joins = joins_of(job);
    for (std::size_t i = 0; i < lengths.size(); ++i) {
      INFO("trial " << trial << ", length " << job.lengths[i].name);
      const allot::Question question{.subject = {LengthId(static_cast<int>(i))},
                                     .planned = lengths,
                                     .others_held = true,
                                     .within_range = true,
                                     .joins = joins};
      const auto asked = allot::scheme(job, question);
      REQUIRE(asked);
      std::vector<double> cost(asked->scheme.problem.unknowns, 0);
      cost[asked->column] = 1;
      const Least low = least_by_glpk(asked->scheme.problem, cost);
      cost[asked->column] = -1;
      const Least high = least_by_glpk(asked->scheme.problem, cost);
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
  const Plan plan = plan_of(Draft{.lengths = {{"a", "80 cm"}, {"b", "max(a / 2, 30 cm)"}, {"c", "40 cm"}},
                                  .joins = {{"x", "a", "b"}, {"y", "a", "c"}}});
  CHECK_FALSE(plan.lengths[0].room);
  CHECK(plan.lengths[2].room);
}

TEST_CASE("a length that nothing depends on may be anything from nothing up") {
  const Plan plan = plan_of(Draft{.lengths = {{"pocket", "14 cm"}}, .joins = {{"x", "44 cm", "20 cm"}}});
  REQUIRE(plan.lengths[0].room);
  CHECK(plan.lengths[0].room->low == Approx(0));
  CHECK_FALSE(plan.lengths[0].room->high);
}

TEST_CASE("the room of a band ends where what it leaves a fading stretch is no longer than the fade") {
  // Two stretches of as much cloth share the band equally, so the one that fades over 12 cm needs 24 cm for both; by
  // the limits alone 18.9 cm would do.
  for (const char *band : {"25 cm", "32 cm"}) { // within limits, and too scant
    const Plan plan = plan_of(
        Draft{.fabric = weighing(165),
              .lengths = {{"b", band}},
              .joins = {{"x",
                         "36.8 cm",
                         "b",
                         {{.long_edge = "18.4 cm", .spread = Fade{{cm(6), cm(6)}}}, {.long_edge = "18.4 cm"}}}}});
    REQUIRE(plan.lengths[0].room);
    CHECK(plan.lengths[0].room->low == Approx(240).epsilon(1e-8));
    CHECK(plan.lengths[0].room->high == Approx(368 / 1.18));
  }
}

TEST_CASE("beside a plain stretch that is to be found a gathered one given by its cloth leaves room for its own band") {
  // 130 cm less the 50 cm gathered leave 80 cm plain; the 50 cm go into 50 / most to 50 / least.
  const Plan plan = plan_of(Draft{.lengths = {{"b", "106 cm"}, {"l", "130 cm"}},
                                  .joins = {{"j", "l", "b", {{.kind = Kind::flat}, {.long_edge = "50 cm"}}}}});
  const Limits &limits = plan.joins[0].segments[1].limits;
  REQUIRE(plan.lengths[0].room);
  CHECK(plan.lengths[0].room->low == Approx(800 + 500 / limits.most));
  CHECK(plan.lengths[0].room->high == Approx(800 + 500 / limits.least));
  // What the long edge gains is plain, and leaves the gathered stretch as much less of the band.
  REQUIRE(plan.lengths[1].room);
  CHECK(plan.lengths[1].room->low == Approx(500 + 1060 - 500 / limits.least));
  CHECK(plan.lengths[1].room->high == Approx(500 + 1060 - 500 / limits.most));
  // With 10 cm of band gathered from what is found, the plain stretch may take all that both leave it.
  const Plan both = plan_of(
      Draft{.lengths = {{"b", "106 cm"}},
            .joins = {{"j", "130 cm", "b", {{.band = "10 cm"}, {.kind = Kind::flat}, {.long_edge = "50 cm"}}}}});
  REQUIRE(both.lengths[0].room);
  CHECK(both.lengths[0].room->low == Approx(100 + 800 - 100 * limits.most + 500 / limits.most));
  CHECK(both.lengths[0].room->high == Approx(100 + 800 - 100 * limits.least + 500 / limits.least));
}

TEST_CASE("a room ends where what the plan chooses fails, though the limits would hold again beyond") {
  // At 210.6 mm of band the limits leave the plain stretch a little; from 211 to 216 mm the plan could give all of it
  // to the others and does, which is a fault.
  Fabric cloth;
  cloth.swatch = {mm(300), mm(70), std::nullopt, std::nullopt};
  Gathering counted = stitched(mm((3 + 4) / 2.0 / 1.8));
  counted.threads = CountedThreads{3, 4, 1.8};
  const auto planned = [&](const std::string &band) {
    return plan_of(
        Draft{.fabric = cloth,
              .gathering = counted,
              .lengths = {{"b", band}},
              .joins = {{"j",
                         "348 mm",
                         "b",
                         {{.band = "b / 3"}, {.kind = Kind::flat}, {.kind = Kind::ease, .long_edge = "151 mm"}}}}});
  };
  const Plan plan = planned("441 mm");
  REQUIRE(plan.lengths[0].room);
  const double low = *plan.lengths[0].room->low;
  const double high = *plan.lengths[0].room->high;
  CHECK(low == Approx(216).margin(1));
  for (int n = 0; n <= 50; ++n) {
    const double value = low + (high - low) * (1e-6 + n * (1 - 2e-6) / 50);
    INFO(value);
    CHECK(planned(std::to_string(value) + " mm").verdict == Verdict::within_limits);
  }
}

TEST_CASE("a length that moves an eased stretch along a drawn edge has no room") {
  // 30 cm along the weft, then 30 cm on the bias: what can be eased in depends on where along them it is.
  const auto planned = [](const OwnLimits &limits) {
    return plan_of(
        Draft{.fabric = weighing(165),
              .lengths = {{"q", "29 cm"}, {"band", "28.5 cm"}, {"g", "15 cm"}},
              .joins = {{"j",
                         DrawnEdge{.path = "M 0 0 H 300 L 512.132034356 212.132034356"},
                         "band + g",
                         {{.kind = Kind::ease, .long_edge = "q", .band = "band", .limits = limits}, {.band = "g"}}}}});
  };
  const Plan plan = planned({});
  REQUIRE(plan.verdict == Verdict::within_limits);
  CHECK_FALSE(plan.lengths[0].room);
  CHECK(plan.lengths[1].room);
  CHECK(plan.lengths[2].room);
  // A limit of the maker's own is the same everywhere.
  CHECK(planned(at_most(1.05)).lengths[0].room);
}

TEST_CASE("a room ends where what is written with that length is no length any more") {
  const auto planned = [](const std::string &q, const LengthDraft &free) {
    return plan_of(Draft{.lengths = {{"q", q}, free}, .joins = {{"j", "f", "30 cm"}}});
  };
  for (const LengthDraft &free :
       {LengthDraft{.name = "f", .from = "q - 50 cm"}, LengthDraft{.name = "f", .aim = "q - 50 cm"},
        LengthDraft{.name = "f", .from = "10 cm", .aim = "2 * q - 100 cm"}}) {
    INFO(free.from << " " << free.aim);
    const Plan plan = planned("110 cm", free);
    REQUIRE(plan.verdict == Verdict::within_limits);
    REQUIRE(plan.lengths[0].room);
    CHECK(plan.lengths[0].room->low == Approx(500));
  }
  // An aim that never comes to nothing leaves any length.
  const Plan plan = planned("60 cm", {.name = "f", .aim = "max(q - 50 cm, 5 cm)"});
  REQUIRE(plan.lengths[0].room);
  CHECK(plan.lengths[0].room->low == Approx(0).margin(1e-9));
  CHECK_FALSE(plan.lengths[0].room->high);
  // One that does leaves those for which it is not known to.
  CHECK_FALSE(planned("60 cm", {.name = "f", .aim = "min(q - 50 cm, 50 cm)"}).lengths[0].room);
}

TEST_CASE("hundreds of fades whose bands are found are planned within seconds, with rooms for those that come first") {
  Draft draft{.fabric = weighing(165)};
  for (int i = 0; i < 200; ++i) {
    const std::string band = "b" + std::to_string(i);
    draft.lengths.push_back({band, "25 cm"});
    draft.joins.push_back({"x" + std::to_string(i),
                           "36.8 cm",
                           band,
                           {{.long_edge = "18.4 cm", .spread = Fade{{cm(6), cm(6)}}}, {.long_edge = "18.4 cm"}}});
  }
  const Plan plan = plan_of(draft);
  REQUIRE(plan.lengths.front().room);
  CHECK(plan.lengths.front().room->low == Approx(240).epsilon(1e-8));
  CHECK_FALSE(plan.lengths.back().room);
}
