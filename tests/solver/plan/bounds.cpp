// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/drawn.hpp"
#include "solver/plan/marks.hpp"
#include "solver/plan/planner.hpp"
#include "tests/draft.hpp"
#include "tests/told.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace gatherwright;
using namespace gatherwright::tests;

// How much a plan holds at most, and that trials hold less.

namespace {

PlanOutcome verdict_of(const Draft &draft) {
  const Job job = job_of(draft);
  return plan_numbers(job, *draw_edges(job), {.verdicts_only = true});
}

/// Joins within limits, each with so many marks.
Draft joins_of_marks(int joins, int marks, int make = 1) {
  Draft draft;
  for (int join = 0; join < joins; ++join)
    draft.joins.push_back({.name = "j" + std::to_string(join),
                           .long_edge = "200 cm",
                           .band = "100 cm",
                           .make = make,
                           .marks = PinsAtParts{marks - 1}});
  return draft;
}

/// A path of so many curves, each a hump of 10 by 5 that is bent the other way than the one before.
std::string humps(int curves) {
  std::string path = "M 0 0";
  for (int curve = 0; curve < curves; ++curve)
    path += curve % 2 == 0 ? " q 5 10 10 0" : " q 5 -10 10 0";
  return path;
}

/// One join whose long edge is drawn so.
Draft drawn(DrawnEdge long_edge, const std::string &band, const std::vector<SegmentDraft> &segments) {
  return {.unit = Unit::mm, .joins = {{"a", std::move(long_edge), band, segments}}};
}

Draft humps_by_grain(int curves, int segments, Kind kind) {
  return drawn({.path = humps(curves)}, std::to_string(7 * curves) + " mm",
               std::vector(segments, SegmentDraft{.kind = kind, .spread = AlongGrain{}}));
}

Outcome<DrawnEdges, Refusals> drawing_of(const Draft &draft) {
  return draw_edges(job_of(draft));
}

} // namespace

TEST_CASE("all marks of a job are bounded, and the join that passes the bound is told once") {
  // 120 times 9,999 is 1,199,880.
  CHECK(refusals_of(verdict_of(joins_of_marks(120, 9999))).empty());
  const auto refused = only_refusal<refusal::TooManyMarks>(verdict_of(joins_of_marks(140, 9999)));
  CHECK(refused.at == JoinId(120));
  CHECK(refused.in_all);
  CHECK(refused.most == most_marks_in_all);
}

TEST_CASE("marks of a mirrored piece count as those of another") {
  CHECK(refusals_of(verdict_of(joins_of_marks(60, 9999, 2))).empty());
  CHECK(only_refusal<refusal::TooManyMarks>(verdict_of(joins_of_marks(61, 9999, 2))).at == JoinId(60));
}

TEST_CASE("a plan lists no more marks than were counted for it") {
  for (const Draft &draft : {joins_of_marks(2, 333), joins_of_marks(1, 57, 2),
                             Draft{.joins = {{.name = "a",
                                            .long_edge = "50 cm",
                                            .band = "25 cm",
                                            .segments = {{}, {.kind = Kind::flat, .band = "3 cm"}, {}},
                                            .closed = true}}}}) {
    const Job job = job_of(draft);
    const Plan plan = plan_of(job);
    for (std::size_t j = 0; j < plan.joins.size(); ++j) {
      const auto counted = static_cast<std::size_t>(mark_count(job.joins[j], plan.joins[j].segments));
      CHECK(plan.joins[j].marks.size() <= counted);
      CHECK(plan.joins[j].marks.size() + 1 >= counted);
      CHECK(plan.joins[j].marks_mirrored.has_value() == job.joins[j].mirrored);
      if (job.joins[j].mirrored) CHECK(plan.joins[j].marks_mirrored->size() <= counted);
    }
  }
}

TEST_CASE("a trial has the lengths, verdicts and findings of the plan and none of its marks") {
  const Draft too_full{.lengths = {{.name = "a", .from = "40 cm", .to = "50 cm"}}, .joins = {{"j", "a", "10 cm"}}};
  for (const Draft &draft : {joins_of_marks(3, 99), too_full, humps_by_grain(40, 3, Kind::gather),
                             Draft{.joins = {{"a", "80 cm", "25 cm", {{.spread = Fade{{cm(3), cm(3)}}}}}}}}) {
    const Job job = job_of(draft);
    const DrawnEdges edges = *draw_edges(job);
    const Plan whole = *plan_numbers(job, edges);
    const Plan trial = *plan_numbers(job, edges, {.verdicts_only = true});
    CHECK(trial.verdict == whole.verdict);
    REQUIRE(trial.joins.size() == whole.joins.size());
    for (std::size_t j = 0; j < trial.joins.size(); ++j) {
      CHECK(trial.joins[j].marks.empty());
      CHECK_FALSE(whole.joins[j].marks.empty());
      CHECK(trial.joins[j].verdict == whole.joins[j].verdict);
      REQUIRE(trial.joins[j].segments.size() == whole.joins[j].segments.size());
      for (std::size_t s = 0; s < trial.joins[j].segments.size(); ++s) {
        CHECK(trial.joins[j].segments[s].long_length == whole.joins[j].segments[s].long_length);
        CHECK(trial.joins[j].segments[s].band == whole.joins[j].segments[s].band);
      }
    }
    CHECK(trial.findings.size() == whole.findings.size()); // which say what a room ends at
    CHECK(trial.notes.empty());
  }
}

TEST_CASE("a trial is refused where the plan is") {
  for (const Draft &draft :
       {Draft{.joins = {{"a", "40 cm", "20 cm", {{.spread = Fade{{cm(15), cm(6)}}}}}}},
        Draft{.joins = {{"a", DrawnEdge{.path = "M 0 0 V 300"}, "29 cm", {{.spread = AlongGrain{}}}}}},
        Draft{.joins = {{.name = "a", .long_edge = "40 m", .band = "20 m", .marks = PinsApart{mm(1), false}}}}}) {
    const Job job = job_of(draft);
    const DrawnEdges edges = *draw_edges(job);
    const auto whole = refusals_of(plan_numbers(job, edges));
    REQUIRE(whole.size() == 1);
    const auto trial = refusals_of(plan_numbers(job, edges, {.verdicts_only = true}));
    REQUIRE(trial.size() == 1);
    CHECK(trial[0].index() == whole[0].index());
    CHECK(path_of(place_of(trial[0])) == path_of(place_of(whole[0])));
  }
}

TEST_CASE("edges whose shear takes too many pieces to reckon are refused once, with a way out") {
  const DrawnEdge bent{.path = humps(30'000)};
  const auto joins = [&](const SegmentDraft &segment) {
    return Draft{.unit = Unit::mm,
                 .joins = {{"j0", bent, "200000 mm", {segment}}, {"j1", bent, "200000 mm", {segment}}}};
  };
  for (const SegmentDraft &segment : {SegmentDraft{.spread = AlongGrain{}}, SegmentDraft{.kind = Kind::ease}}) {
    const auto refused = only_refusal<refusal::Undrawable>(drawing_of(joins(segment)));
    CHECK(refused.at == EdgeAt(JoinId(0), WhichEdge::long_edge));
    CHECK(refused.why == refusal::Undrawable::Why::too_many_bends);
    CHECK(refused.most == 100'000);
  }
  CHECK(refusals_of(drawing_of(joins({}))).empty()); // no one asks for their shear
}

TEST_CASE("shear counts on either side of curves that meet in corners") {
  std::string path = "M 0 0";
  for (int i = 0; i < 40'000; ++i)
    path += " q 5 5 10 0";
  for (const Garment side : {Garment::left, Garment::right}) {
    const auto refused = only_refusal<refusal::Undrawable>(drawing_of(
        drawn({.path = path, .allowance = mm(0.5), .garment = side}, "200000 mm", {{.spread = AlongGrain{}}})));
    CHECK(refused.why == refusal::Undrawable::Why::too_many_bends);
  }
}

TEST_CASE("where a plain stretch may come to be eased, too many bends keep it from nothing: it is left out") {
  const std::vector<SegmentDraft> plain{{.kind = Kind::flat, .long_edge = "100 mm"}, {}};
  const Job bent = job_of(drawn({.path = humps(30'000)}, "300000 mm", plain));
  const DrawnEdges edges = *draw_edges(bent);
  CHECK_FALSE(ready_to_ease(bent, edges)[0].long_edge->shear_expected());
  const Job few = job_of(drawn({.path = humps(30)}, "300 mm", plain));
  const DrawnEdges of_few = *draw_edges(few);
  CHECK_FALSE(of_few[0].long_edge->shear_expected());
  CHECK(ready_to_ease(few, of_few)[0].long_edge->shear_expected());
}

TEST_CASE("the shear of an edge to be eased or spread by the grain is reckoned when it is drawn") {
  for (const Kind kind : {Kind::gather, Kind::ease}) {
    const auto edges = *draw_edges(job_of(humps_by_grain(20, 2, kind)));
    REQUIRE(edges[0].long_edge);
    CHECK(edges[0].long_edge->shear_expected());
  }
}
