// SPDX-License-Identifier: GPL-3.0-or-later
// What would put pieces right, and how far lengths may move that pieces hang on.

#include "tests/draft.hpp"
#include "tests/outcomes.hpp"
#include "tests/solver/advice/random_job.hpp"
#include "tests/told.hpp"

#include "solver/advice/change.hpp"

using namespace gatherwright;
using namespace gatherwright::tests;

namespace {

/// A sleeve whose hem, sewn to a cuff, begins 4 cm from the side's start.
Draft past_the_end(const std::string &long_edge) {
  return {.tape_step = mm(2),
          .fabric = weighing(165, cm(150)),
          .lengths = {{"sleeve", "48 cm"}},
          .joins = {{.name = "sleeve into cuff",
                     .long_edge = long_edge,
                     .band = "22 cm",
                     .segments = {{.kind = Kind::flat, .long_edge = "3 cm", .to = "slit"}, {}},
                     .make = 2}},
          .allowance = "1 cm",
          .pieces = {{.name = "sleeve",
                      .across = "50 cm",
                      .along = "56 cm",
                      .cut = 2,
                      .sides = {{.side = Side::bottom, .at = "4 cm"}}}}};
}

std::optional<Plan> plan_without_layouts(const Job &job) {
  PlanOutcome outcome = gatherwright::plan(job, {.layouts = false});
  auto *made = value_in(outcome);
  return made ? std::optional(std::move(*made)) : std::nullopt;
}

/// The job with a remedy's change made.
std::optional<Job> changed(const Job &job, const Plan &plan, const Change &change) {
  if (const auto *length = std::get_if<change::ToLength>(&change))
    return advice::with_length(job, length->at, *plan.lengths[length->at.at].is, length->to);
  if (const auto *edge = std::get_if<change::ToEdge>(&change))
    return advice::with_length(job, edge->at, edge->to - edge->by, edge->to);
  return std::nullopt;
}

} // namespace

TEST_CASE("a part past its side's end is mended by the edge that it is of") {
  const Plan plan = plan_of(past_the_end("sleeve"));
  CHECK(plan.verdict == Verdict::rule_broken);
  const auto *length = find<change::ToLength>(plan.remedies);
  REQUIRE(length);
  CHECK(length->to == Approx(460));
  REQUIRE(plan.lengths[0].room);
  CHECK(plan.lengths[0].room->high.value() == Approx(460));
  const Plan unnamed = plan_of(past_the_end("48 cm"));
  const auto *edge = find<change::ToEdge>(unnamed.remedies);
  REQUIRE(edge);
  CHECK(edge->at == EdgeAt(JoinId(0), WhichEdge::long_edge));
  CHECK(edge->to == Approx(460));
}

TEST_CASE("a piece that is too wide is mended by the length it hangs on, and a size that names none by nothing") {
  Draft draft = past_the_end("sleeve");
  draft.fabric.width = cm(60);
  draft.lengths.push_back({"width", "64 cm"});
  draft.pieces = {{.name = "body", .across = "width", .along = "90 cm"}};
  const Plan plan = plan_of(draft);
  const auto *length = find<change::ToLength>(plan.remedies);
  REQUIRE(length);
  CHECK(length->at == LengthId(1));
  CHECK(length->to == Approx(580));
  CHECK(plan.remedies.size() == 1);
  CHECK(plan.lengths[1].room.value().high.value() == Approx(580));
  CHECK_FALSE(plan.lengths[0].room); // it does not put the body right
  draft.pieces[0].across = "64 cm";
  CHECK(plan_of(draft).remedies.empty());
}

TEST_CASE("no length comes to where a piece has no size") {
  Draft draft = past_the_end("sleeve");
  draft.lengths.push_back({"drop", "50 cm"});
  draft.pieces = {{.name = "body", .across = "60 cm", .along = "drop - 12 cm"}};
  const Plan plan = plan_of(draft);
  CHECK(plan.verdict == Verdict::within_limits);
  CHECK(plan.lengths[1].room.value().low.value() == Approx(120));
  CHECK_FALSE(plan.lengths[1].room->high);
}

TEST_CASE("each remedy of a job with pieces does what it says") {
  std::mt19937_64 random(23);
  int tried = 0;
  int of_pieces = 0;
  for (int trial = 0; trial < 300; ++trial) {
    const Job job = job_of(random_job_with_pieces(random));
    const std::optional<Plan> plan = plan_without_layouts(job);
    if (!plan || plan->verdict == Verdict::rules_conflict) continue;
    INFO("trial " << trial);
    for (const Remedy &remedy : plan->remedies) {
      const std::optional<Job> mended = changed(job, *plan, remedy.change);
      if (!mended) continue;
      const std::optional<Plan> again = plan_without_layouts(*mended);
      REQUIRE(again);
      CHECK(advice::mended(*again, remedy.mends));
      ++tried;
      of_pieces += count<finding::PastTheEnd>(plan->findings) + count<finding::TooWide>(plan->findings) > 0;
    }
  }
  CHECK(tried > 50);
  CHECK(of_pieces > 20);
}
