// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/report/read_back.hpp"
#include "tests/cli/report/sample.hpp"

#include <catch2/catch.hpp>

#include <limits>

using namespace gatherwright;
using tests::Json;
using tests::keys;
using tests::Names;
using tests::written;

TEST_CASE("a plan's keys stand in their order") {
  const Json plan = written(sample::job(), sample::plan());
  CHECK(keys(plan) == Names{"format", "title", "unit", "tape_step", "verdict", "measures", "lengths", "rules", "joins",
                            "certificate", "findings", "remedies", "cautions", "notes"});
  CHECK(keys(plan["lengths"]) == Names{"cuff", "slit", "sleeve"});
  CHECK(keys(plan["lengths"]["cuff"]) == Names{"is", "text", "found", "room", "binds"});
  CHECK(keys(plan["lengths"]["slit"]) == Names{"is", "text", "found"});
  CHECK(keys(plan["lengths"]["sleeve"]) == Names{"is", "text", "found", "exact", "room", "binds"});
  CHECK(keys(plan["rules"][0]) == Names{"name", "holds", "left", "right"});
  const Json &join = plan["joins"][0];
  CHECK(keys(join) == Names{"name", "verdict", "make", "long", "band", "fullness", "segments", "marks",
                            "marks_mirrored", "gathering", "pins"});
  CHECK(keys(join["segments"][0]) ==
        Names{"name", "kind", "from", "to", "long", "band", "extra", "fullness", "fullest", "slackest", "verdict"});
  CHECK(keys(join["segments"][1]) == Names{"name", "kind", "from", "to", "long", "band", "extra", "fullness", "fullest",
                                           "slackest", "give", "limits", "layers", "ridge", "verdict"});
  CHECK(keys(join["segments"][1]["limits"]) == Names{"least", "ideal", "most", "packed"});
  CHECK(keys(join["marks"][1]) ==
        Names{"n", "name", "segment", "long", "band", "fullness_to_next", "stitches_to_next"});
  CHECK(keys(join["marks"][2]) == Names{"n", "segment", "long", "band", "fullness_to_next", "stitches_to_next"});
  CHECK(keys(join["marks"][5]) == Names{"n", "name", "segment", "long", "band"});
  CHECK(keys(join["marks"][1]["long"]) == Names{"exact", "tape", "text"});
  CHECK(keys(join["gathering"]) == Names{"stitch", "rows", "at", "stitches", "thread", "threads"});
  CHECK(keys(join["gathering"]["threads"][0]) == Names{"from", "to", "rows", "cut", "stitches"});
  CHECK(keys(plan["joins"][1]) ==
        Names{"name", "verdict", "make", "long", "band", "fullness", "segments", "marks", "gathering", "pins"});
}

TEST_CASE("a plan's figures are in the job's unit") {
  const Json plan = written(sample::job(), sample::plan());
  CHECK(plan["format"] == "gatherwright plan 1");
  CHECK(plan["tape_step"] == 0.1);
  CHECK(plan["measures"]["wrist"] == 17.0);
  CHECK(plan["lengths"]["sleeve"]["is"] == 52.0);
  CHECK(plan["lengths"]["sleeve"]["exact"] == 51.93);
  CHECK(plan["lengths"]["sleeve"]["text"] == "52 cm");
  CHECK(plan["lengths"]["cuff"]["room"] == Json::array({20.2, nullptr}));
  CHECK(plan["lengths"]["cuff"]["binds"] == Json::array({nullptr, nullptr}));
  CHECK(plan["joins"][0]["segments"][1]["extra"] == 30.0);
  CHECK(plan["joins"][0]["segments"][1]["ridge"] == 0.16);
  CHECK(plan["joins"][0]["marks"][2]["long"]["tape"] == 15.2);
  CHECK(plan["joins"][0]["marks"][2]["long"]["text"] == "15.2");
  CHECK(plan["joins"][0]["gathering"]["at"] == Json::array({0.6, 1.0}));
  CHECK(plan["joins"][0]["marks_mirrored"][4]["name"] == "slit end");
}

TEST_CASE("another unit changes the figures and nothing else") {
  Job job = sample::job();
  const Json metric = written(job, sample::plan());
  job.unit = Unit::mm;
  const Json fine = written(job, sample::plan());
  const Json flat_metric = metric.flatten();
  const Json flat_fine = fine.flatten();
  REQUIRE(keys(flat_metric) == keys(flat_fine));
  CHECK(fine["joins"][0]["long"].get<double>() == 10 * metric["joins"][0]["long"].get<double>());
  CHECK(fine["joins"][0]["fullness"] == metric["joins"][0]["fullness"]);
}

TEST_CASE("what is left out is left out with its key") {
  Job job = sample::job();
  Plan plan = sample::plan();
  job.title.reset();
  plan.certificate.reset();
  plan.joins[0].gathering.reset();
  plan.joins[0].marks_mirrored.reset();
  const Json bare = written(job, plan);
  CHECK_FALSE(bare.contains("title"));
  CHECK_FALSE(bare.contains("certificate"));
  CHECK_FALSE(bare.contains("conflict"));
  CHECK_FALSE(bare["joins"][0].contains("gathering"));
  CHECK_FALSE(bare["joins"][0].contains("marks_mirrored"));
  CHECK_FALSE(bare["joins"][0].contains("drawn"));
  CHECK_FALSE(bare["joins"][0].contains("cord"));
  CHECK_FALSE(bare["joins"][0].contains("profile"));
}

TEST_CASE("each kind of segment tells what belongs to it") {
  Job job = sample::job();
  const auto told = [&](Kind kind) {
    job.joins[0].segments[1].kind = kind;
    Plan plan = sample::plan();
    SegmentPlan &segment = plan.joins[0].segments[1];
    if (!stands_off(kind)) segment.gathers.reset();
    if (is_folded(kind)) segment.folds = Folds{};
    return keys(written(job, plan)["joins"][0]["segments"][1]);
  };
  const auto has = [](const Names &names, const char *name) {
    return std::find(names.begin(), names.end(), name) != names.end();
  };
  CHECK(has(told(Kind::gather), "ridge"));
  CHECK_FALSE(has(told(Kind::gauge), "ridge"));
  CHECK(has(told(Kind::gauge), "folds"));
  CHECK(has(told(Kind::gauge), "pitch"));
  CHECK_FALSE(has(told(Kind::draw), "folds"));
  CHECK(has(told(Kind::draw), "limits"));
  CHECK_FALSE(has(told(Kind::flat), "limits"));
  job.joins[0].segments[1].kind = Kind::ease;
  CHECK(keys(written(job, sample::plan())["joins"][0]["segments"][1]["limits"]) == Names{"most"});
}

TEST_CASE("drawn edges, cut places, cords and profiles are told where there are any") {
  Plan plan = sample::plan();
  JoinPlan &join = plan.joins[0];
  join.drawn_long = DrawnPlan{551, 520, 10, std::nullopt};
  join.marks[1].long_edge.cut = 40;
  join.marks[1].long_edge.at = {1.5, 2.5};
  join.marks[1].long_edge.normal = {-0.0, 1};
  join.cord = 720;
  join.profile = Profile{{0, 10, 20}, {0, 25, 50}};
  const Json told = written(sample::job(), plan)["joins"][0];
  CHECK(keys(told) == Names{"name", "verdict", "make", "long", "band", "fullness", "drawn", "segments", "marks",
                            "marks_mirrored", "gathering", "cord", "pins", "profile"});
  CHECK(told["drawn"] == Json({{"long", {{"cut_edge", 55.1}, {"stitching", 52.0}}}}));
  CHECK(keys(told["marks"][1]["long"]) == Names{"exact", "tape", "text", "cut", "at", "normal"});
  CHECK(told["marks"][1]["long"]["cut"] == 4.0);
  CHECK(told["marks"][1]["long"]["at"] == Json::array({1.5, 2.5}));
  CHECK(told["marks"][1]["long"]["normal"] == Json::array({0.0, 1.0}));
  CHECK(told["cord"] == 72.0);
  CHECK(told["profile"] == Json({{"band", {0.0, 1.0, 2.0}}, {"long", {0.0, 2.5, 5.0}}}));
}

TEST_CASE("findings and remedies carry the figures of their sentences") {
  const Job job = sample::job();
  Plan plan = sample::plan();
  plan.findings = {finding::PastLimit{sample::fullness, finding::PastLimit::Limit::most, 3.4, 2.7},
                   finding::RuleBroken{RuleId(0), 260, 270}};
  plan.remedies = {{std::nullopt, change::ToLength{LengthId(0), 14, 234}},
                   {sample::cuff_join, change::ToWeight{-45, 120}},
                   {std::nullopt, change::ToKind{sample::fullness, Kind::gauge}}};
  const Json told = written(job, plan);
  CHECK(keys(told["findings"][0]) == Names{"level", "join", "segment", "says", "measured", "limit"});
  CHECK(told["findings"][0]["measured"] == 3.4);
  CHECK(told["findings"][0]["segment"] == "fullness");
  CHECK(keys(told["findings"][1]) == Names{"level", "says", "measured", "limit"});
  CHECK(told["findings"][1]["level"] == "rule broken");
  CHECK(told["findings"][1]["measured"] == 26.0);
  CHECK(keys(told["remedies"][0]) == Names{"change", "by", "to", "text", "says"});
  CHECK(told["remedies"][0]["change"] == "cuff");
  CHECK(told["remedies"][0]["by"] == 1.4);
  CHECK(told["remedies"][0]["to"] == 23.4);
  CHECK(told["remedies"][0]["text"] == "23.4 cm");
  CHECK(told["remedies"][1]["join"] == "sleeve into cuff");
  CHECK(told["remedies"][1]["to"] == 120.0);
  CHECK(told["remedies"][1]["text"] == "120 g/m2");
  CHECK(keys(told["remedies"][2]) == Names{"change", "text", "says"});
  CHECK(told["remedies"][2]["text"] == "gauge");
}

TEST_CASE("where the rules conflict, only what is known is told") {
  Plan plan = sample::plan();
  plan.verdict = Verdict::rules_conflict;
  plan.joins.clear();
  plan.certificate.reset();
  plan.conflict =
      Conflict{{condition::Holds{RuleId(1)}, condition::InRange{LengthId(2), condition::InRange::End::from}}, 0};
  plan.lengths[2] = LengthPlan{};
  const Json told = written(sample::job(), plan);
  CHECK(keys(told) == Names{"format", "title", "unit", "tape_step", "verdict", "measures", "lengths", "rules", "joins",
                            "findings", "remedies", "conflict", "cautions", "notes"});
  CHECK(told["joins"].empty());
  CHECK(told["conflict"] == Json::array({"2 * sleeve <= 150 cm", "sleeve from 45 cm"}));
  CHECK(told["lengths"]["cuff"]["is"] == 22.0);
  CHECK(keys(told["lengths"]["sleeve"]) == Names{"found"});
  CHECK(keys(told["rules"][0]) == Names{"name", "holds", "left", "right"});
  CHECK(keys(told["rules"][1]) == Names{"name"});
}

TEST_CASE("a figure that is no number is never written") {
  Plan plan = sample::plan();
  const double nothing = std::numeric_limits<double>::quiet_NaN();
  plan.joins[0].segments[1].gathers.value().ridge = nothing;
  plan.joins[0].segments[1].limits.packed = std::numeric_limits<double>::infinity();
  const std::string text = report::plan_json(sample::job(), plan);
  CHECK(text.find("nan") == std::string::npos);
  CHECK(text.find("inf") == std::string::npos);
  CHECK_FALSE(Json::parse(text)["joins"][0]["segments"][1].contains("ridge"));
}

TEST_CASE("names come through JSON as they were written") {
  const std::string name = "\"sleeve\"\\\t\x1b[31m\u202e袖";
  const Json told = written(sample::renamed(sample::job(), name), sample::plan());
  CHECK(told["title"] == name);
  CHECK(told["joins"][0]["name"] == name);
  CHECK(told["joins"][0]["marks"][1]["name"] == name);
  CHECK(told["lengths"].contains(name));
}
