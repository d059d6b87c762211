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
  return plan_numbers(job, std::get<DrawnEdges>(draw_edges(job)), {.verdicts_only = true});
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

std::vector<PlacedFault> faults_of_drawing(const Draft &draft) {
  const auto drawn = draw_edges(job_of(draft));
  const auto *faults = std::get_if<std::vector<PlacedFault>>(&drawn);
  return faults ? *faults : std::vector<PlacedFault>();
}

} // namespace

TEST_CASE("all marks of a job are bounded, and the join that passes the bound is told once") {
  // 120 times 9,999 is 1,199,880.
  CHECK(faults_of(verdict_of(joins_of_marks(120, 9999))).empty());
  const auto faults = faults_of(verdict_of(joins_of_marks(140, 9999)));
  REQUIRE(faults.size() == 1);
  CHECK(path_of(faults[0].place) == "join 120");
  CHECK(faults[0].fault.what == "up to j120 the job would get more than 1200000 marks in all, those of mirrored pieces "
                                "counted too");
  CHECK(faults[0].fault.instead == "set them further apart, or plan fewer joins in one job");
}

TEST_CASE("marks of a mirrored piece count as those of another") {
  CHECK(faults_of(verdict_of(joins_of_marks(60, 9999, 2))).empty());
  const auto faults = faults_of(verdict_of(joins_of_marks(61, 9999, 2)));
  REQUIRE(faults.size() == 1);
  CHECK(path_of(faults[0].place) == "join 60");
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

TEST_CASE("a trial has the lengths and verdicts of the plan and none of its marks") {
  const Draft too_full{.lengths = {{.name = "a", .from = "40 cm", .to = "50 cm"}}, .joins = {{"j", "a", "10 cm"}}};
  for (const Draft &draft : {joins_of_marks(3, 99), too_full, humps_by_grain(40, 3, Kind::gather),
                             Draft{.joins = {{"a", "80 cm", "25 cm", {{.spread = Fade{{cm(3), cm(3)}}}}}}}}) {
    const Job job = job_of(draft);
    const DrawnEdges edges = std::get<DrawnEdges>(draw_edges(job));
    const Plan whole = std::get<Plan>(plan_numbers(job, edges));
    const Plan trial = std::get<Plan>(plan_numbers(job, edges, {.verdicts_only = true}));
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
    CHECK(trial.findings.empty());
    CHECK(trial.notes.empty());
  }
}

TEST_CASE("a trial is at fault where the plan is") {
  for (const Draft &draft :
       {Draft{.joins = {{"a", "40 cm", "20 cm", {{.spread = Fade{{cm(15), cm(6)}}}}}}},
        Draft{.joins = {{"a", DrawnEdge{.path = "M 0 0 V 300"}, "29 cm", {{.spread = AlongGrain{}}}}}},
        Draft{.joins = {{.name = "a", .long_edge = "40 m", .band = "20 m", .marks = PinsApart{mm(1), false}}}}}) {
    const Job job = job_of(draft);
    const DrawnEdges edges = std::get<DrawnEdges>(draw_edges(job));
    const auto whole = faults_of(plan_numbers(job, edges));
    REQUIRE(whole.size() == 1);
    const auto trial = faults_of(plan_numbers(job, edges, {.verdicts_only = true}));
    REQUIRE(trial.size() == 1);
    CHECK(trial[0].fault == whole[0].fault);
    CHECK(path_of(trial[0].place) == path_of(whole[0].place));
  }
}

TEST_CASE("a fault has the beginning of a long name, and still its end") {
  std::string name;
  for (int i = 0; i < 5000; ++i)
    name += "é";
  const auto told = faults_of(verdict_of({.joins = {{name, "40 cm", "20 cm", {{.band = "20 cm"}, {.name = name}}}}}));
  REQUIRE(told.size() == 1);
  const std::string begins = name.substr(0, 200) + "…";
  CHECK(told[0].fault.what == "no band is left for " + begins + ", segment " + begins);
}

TEST_CASE("edges whose shear takes too many pieces to reckon are refused once, with a way out") {
  const DrawnEdge bent{.path = humps(30'000)};
  const auto joins = [&](const SegmentDraft &segment) {
    return Draft{.unit = Unit::mm,
                 .joins = {{"j0", bent, "200000 mm", {segment}}, {"j1", bent, "200000 mm", {segment}}}};
  };
  for (const SegmentDraft &segment : {SegmentDraft{.spread = AlongGrain{}}, SegmentDraft{.kind = Kind::ease}}) {
    const auto faults = faults_of_drawing(joins(segment));
    REQUIRE(faults.size() == 1);
    CHECK(path_of(faults[0].place) == "join 0, long");
    CHECK(faults[0].fault.what ==
          "the edges to be eased or spread by the grain bend too often: their shear has more than 100000 pieces");
    CHECK(faults[0].fault.instead == "draw them with fewer curves, or spread it \"even\"");
  }
  CHECK(faults_of_drawing(joins({})).empty()); // no one asks for their shear
}

TEST_CASE("shear counts on either side of curves that meet in corners") {
  std::string path = "M 0 0";
  for (int i = 0; i < 40'000; ++i)
    path += " q 5 5 10 0";
  for (const Garment side : {Garment::left, Garment::right}) {
    const auto faults = faults_of_drawing(
        drawn({.path = path, .allowance = mm(0.5), .garment = side}, "200000 mm", {{.spread = AlongGrain{}}}));
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].fault.what.ends_with("more than 100000 pieces"));
  }
}

TEST_CASE("where a plain stretch may come to be eased, too many bends are no fault: it is left out") {
  const std::vector<SegmentDraft> plain{{.kind = Kind::flat, .long_edge = "100 mm"}, {}};
  const Job bent = job_of(drawn({.path = humps(30'000)}, "300000 mm", plain));
  const DrawnEdges edges = std::get<DrawnEdges>(draw_edges(bent));
  CHECK_FALSE(ready_to_ease(bent, edges)[0].long_edge->shear_expected());
  const Job few = job_of(drawn({.path = humps(30)}, "300 mm", plain));
  const DrawnEdges of_few = std::get<DrawnEdges>(draw_edges(few));
  CHECK_FALSE(of_few[0].long_edge->shear_expected());
  CHECK(ready_to_ease(few, of_few)[0].long_edge->shear_expected());
}

TEST_CASE("the shear of an edge to be eased or spread by the grain is reckoned when it is drawn") {
  for (const Kind kind : {Kind::gather, Kind::ease}) {
    const auto edges = std::get<DrawnEdges>(draw_edges(job_of(humps_by_grain(20, 2, kind))));
    REQUIRE(edges[0].long_edge);
    CHECK(edges[0].long_edge->shear_expected());
  }
}
