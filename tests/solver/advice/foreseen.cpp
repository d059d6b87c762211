// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/foreseen.hpp"

#include "solver/advice/change.hpp"
#include "tests/draft.hpp"
#include "tests/solver/advice/asked.hpp"
#include "tests/solver/advice/random_job.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

using namespace gatherwright;
using namespace gatherwright::tests;

namespace {

/// A job of one of its joins, without rules: planned, it is within limits wherever that can be.
Job of_one_join(const Job &job, int join) {
  Job alone = job;
  alone.rules.clear();
  alone.joins = {job.joins[join]};
  return alone;
}

bool fades(const Join &join) {
  return std::any_of(join.segments.begin(), join.segments.end(),
                     [](const Segment &segment) { return std::holds_alternative<Fade>(segment.spread); });
}

} // namespace

TEST_CASE(
    "a join that is foreseen past its limits is past them however it is planned, and one that is not comes within") {
  std::mt19937_64 random(20);
  const PlanSettings numbers_alone{.advice = false};
  int past = 0;
  int within = 0;
  for (int n = 0; n < 1500; ++n) {
    const Job job = job_of(random_advice_job(random, true));
    for (int j = 0; j < static_cast<int>(job.joins.size()); ++j) {
      Job alone = of_one_join(job, j);
      const PlanOutcome as_written = plan(alone, numbers_alone);
      if (!as_written || as_written->conflict) continue;
      const std::vector<double> planned = lengths_of(*as_written);
      const Join before = alone.joins[0];
      const advice::Foreseen foreseen(alone, planned, {});
      alone.joins[0] = advice::with_weight(before, {std::uniform_real_distribution<double>(40, 400)(random)});
      const PlanOutcome worked = plan(alone, numbers_alone);
      if (!worked) continue; // a fade too long, or a stretch that gets nothing
      const bool is_past = foreseen.is_past_limits(JoinId(0), alone.joins[0]);
      const bool is_within = worked->verdict == Verdict::within_limits;
      INFO("job " << n << ", join " << j);
      CHECK_FALSE((is_past && is_within));
      if (!fades(before)) CHECK((is_past || is_within)); // a fade can leave a stretch too little
      past += is_past;
      within += is_within;
    }
  }
  CHECK(past > 200);
  CHECK(within > 200);
}

TEST_CASE("nothing is foreseen of a join that hangs on two lengths to be found, or is eased along a drawn edge") {
  const auto foreseen = [](const Draft &draft) {
    const Job job = job_of(draft);
    const std::vector<double> planned(job.lengths.size(), 500);
    std::vector<allot::DrawnLengths> drawn;
    if (job.joins[0].long_edge.drawn()) drawn.push_back({200, std::nullopt, [](double, double) { return 0.5; }});
    return advice::Foreseen(job, planned, drawn).is_past_limits(JoinId(0), job.joins[0]);
  };
  const LengthDraft a{.name = "a", .from = "90 cm", .to = "100 cm"};
  const LengthDraft b{.name = "b", .from = "9 cm", .to = "10 cm"};
  Draft of_one{.fabric = weighing(165), .lengths = {a}, .joins = {{"x", "a", "10 cm"}}};
  CHECK(foreseen(of_one)); // nine times as full
  CHECK_FALSE(foreseen({.fabric = weighing(165), .lengths = {a, b}, .joins = {{"x", "a", "b"}}}));
  const DrawnEdge edge{.path = "M 0 0 H 200"};
  CHECK(foreseen({.fabric = weighing(165), .joins = {{"x", edge, "2 cm"}}}));
  CHECK_FALSE(foreseen({.fabric = weighing(165), .joins = {{"x", edge, "2 cm", {{.kind = Kind::ease}}}}}));
}
