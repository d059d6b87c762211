// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/drawn.hpp"
#include "solver/plan/marks.hpp"
#include "solver/plan/planner.hpp"
#include "tests/hostile_paper.hpp"
#include "tests/made_job.hpp"
#include "tests/told.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace gatherwright;

// How much a plan holds at most, and that trials hold less.

namespace {

PlanOutcome verdict_of(const std::string &text) {
  const Job job = tests::job_of(text);
  return plan_numbers(job, std::get<DrawnEdges>(draw_edges(job)), {.verdicts_only = true});
}

std::vector<PlacedFault> faults_of(const PlanOutcome &outcome) {
  const auto *faults = std::get_if<std::vector<PlacedFault>>(&outcome);
  return faults ? *faults : std::vector<PlacedFault>();
}

std::string made_twice(std::string text) {
  const std::string name = "{\"name\":";
  for (std::size_t at = text.find(name); at != std::string::npos; at = text.find(name, at + 1))
    text.insert(at + 1, "\"make\":2,");
  return text;
}

std::vector<PlacedFault> faults_of_drawing(const std::string &text) {
  const auto drawn = draw_edges(tests::job_of(text));
  const auto *faults = std::get_if<std::vector<PlacedFault>>(&drawn);
  return faults ? *faults : std::vector<PlacedFault>();
}

} // namespace

TEST_CASE("all marks of a job are bounded, and the join that passes the bound is told once") {
  // 120 times 9,999 is 1,199,880.
  CHECK(faults_of(verdict_of(hostile::joins_of_marks(120, 9999))).empty());
  const auto faults = faults_of(verdict_of(hostile::joins_of_marks(140, 9999)));
  REQUIRE(faults.size() == 1);
  CHECK(tests::path_of(faults[0].place) == "join 120");
  CHECK(faults[0].fault.what == "up to j120 the job would get more than 1200000 marks in all, those of mirrored pieces "
                                "counted too");
  CHECK(faults[0].fault.instead == "set them further apart, or plan fewer joins in one job");
}

TEST_CASE("marks of a mirrored piece count as those of another") {
  CHECK(faults_of(verdict_of(made_twice(hostile::joins_of_marks(60, 9999)))).empty());
  const auto faults = faults_of(verdict_of(made_twice(hostile::joins_of_marks(61, 9999))));
  REQUIRE(faults.size() == 1);
  CHECK(tests::path_of(faults[0].place) == "join 60");
}

TEST_CASE("a plan lists no more marks than were counted for it") {
  for (const std::string &text : {hostile::joins_of_marks(2, 333), made_twice(hostile::joins_of_marks(1, 57)),
                                  std::string(R"({"joins":[{"name":"a","long":"50 cm","band":"25 cm","closed":true,
                                    "segments":[{},{"kind":"flat","band":3},{}]}]})")}) {
    const Job job = tests::job_of(text);
    const Plan plan = tests::plan_of(job);
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
  for (const std::string &text :
       {hostile::joins_of_marks(3, 99), hostile::bad_joins(4), hostile::humps_by_grain(40, 3),
        std::string(
            R"({"joins":[{"name":"a","long":"80 cm","band":"25 cm","segments":[{"spread":{"fade":[3,3]}}]}]})")}) {
    const Job job = tests::job_of(text);
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
  for (const char *text :
       {R"({"joins":[{"name":"a","long":"40 cm","band":"20 cm","segments":[{"spread":{"fade":["15 cm","6 cm"]}}]}]})",
        R"({"joins":[{"name":"a","long":{"path":"M 0 0 V 300"},"band":"29 cm","segments":[{"spread":"grain"}]}]})",
        R"({"joins":[{"name":"a","long":"40 m","band":"20 m","marks":{"apart":"1 mm"}}]})"}) {
    const Job job = tests::job_of(text);
    const DrawnEdges edges = std::get<DrawnEdges>(draw_edges(job));
    const auto whole = faults_of(plan_numbers(job, edges));
    REQUIRE(whole.size() == 1);
    const auto trial = faults_of(plan_numbers(job, edges, {.verdicts_only = true}));
    REQUIRE(trial.size() == 1);
    CHECK(trial[0].fault == whole[0].fault);
    CHECK(tests::path_of(trial[0].place) == tests::path_of(whole[0].place));
  }
}

TEST_CASE("a fault has the beginning of a long name, and still its end") {
  std::string name;
  for (int i = 0; i < 5000; ++i)
    name += "é";
  const auto told = faults_of(verdict_of(R"({"joins":[{"name":")" + name +
                                         R"(","long":"40 cm","band":"20 cm","segments":[{"band":"20 cm"},{"name":")" +
                                         name + R"("}]}]})"));
  REQUIRE(told.size() == 1);
  const std::string begins = name.substr(0, 200) + "…";
  CHECK(told[0].fault.what == "no band is left for " + begins + ", segment " + begins);
}

TEST_CASE("edges whose shear takes too many pieces to reckon are refused once, with a way out") {
  const std::string path = hostile::humps(30'000);
  const auto joins = [&](const std::string &segment) {
    return R"({"unit":"mm","joins":[)" +
           hostile::listed(2,
                           [&](int i) {
                             return "{\"name\":\"" + hostile::n("j", i) + R"(","long":{"path":")" + path +
                                    R"("},"band":200000,"segments":[)" + segment + "]}";
                           }) +
           "]}";
  };
  for (const char *segment : {R"({"spread":"grain"})", R"({"kind":"ease"})"}) {
    const auto faults = faults_of_drawing(joins(segment));
    REQUIRE(faults.size() == 1);
    CHECK(tests::path_of(faults[0].place) == "join 0, long");
    CHECK(faults[0].fault.what ==
          "the edges to be eased or spread by the grain bend too often: their shear has more than 100000 pieces");
    CHECK(faults[0].fault.instead == "draw them with fewer curves, or spread it \"even\"");
  }
  CHECK(faults_of_drawing(joins("{}")).empty()); // no one asks for their shear
}

TEST_CASE("shear counts on either side of curves that meet in corners") {
  std::string path = "M 0 0";
  for (int i = 0; i < 40'000; ++i)
    path += " q 5 5 10 0";
  for (const char *side : {"left", "right"}) {
    const auto faults = faults_of_drawing(R"({"unit":"mm","joins":[{"name":"a","long":{"path":")" + path +
                                          R"(","allowance":0.5,"garment":")" + side +
                                          R"("},"band":200000,"segments":[{"spread":"grain"}]}]})");
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].fault.what.ends_with("more than 100000 pieces"));
  }
}

TEST_CASE("where a plain stretch may come to be eased, too many bends are no fault: it is left out") {
  const Job bent = tests::job_of(R"({"unit":"mm","joins":[{"name":"a","long":{"path":")" + hostile::humps(30'000) +
                                 R"("},"band":300000,"segments":[{"kind":"flat","long":100},{}]}]})");
  const DrawnEdges edges = std::get<DrawnEdges>(draw_edges(bent));
  CHECK_FALSE(ready_to_ease(bent, edges)[0].long_edge->shear_expected());
  const Job few = tests::job_of(R"({"unit":"mm","joins":[{"name":"a","long":{"path":")" + hostile::humps(30) +
                                R"("},"band":300,"segments":[{"kind":"flat","long":100},{}]}]})");
  const DrawnEdges drawn = std::get<DrawnEdges>(draw_edges(few));
  CHECK_FALSE(drawn[0].long_edge->shear_expected());
  CHECK(ready_to_ease(few, drawn)[0].long_edge->shear_expected());
}

TEST_CASE("the shear of an edge to be eased or spread by the grain is reckoned when it is drawn") {
  for (const char *kind : {"gather", "ease"}) {
    const auto drawn = std::get<DrawnEdges>(draw_edges(tests::job_of(hostile::humps_by_grain(20, 2, kind))));
    REQUIRE(drawn[0].long_edge);
    CHECK(drawn[0].long_edge->shear_expected());
  }
}
