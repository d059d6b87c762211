// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/report/read_back.hpp"
#include "tests/cli/report/sample_pieces.hpp"

#include <catch2/catch.hpp>

using namespace gatherwright;
using tests::Json;
using tests::keys;
using tests::Names;
using tests::written;

TEST_CASE("what is cut stands after the joins, its keys in their order") {
  const Json plan = written(sample::job_with_pieces(), sample::plan_with_pieces());
  CHECK(keys(plan) == Names{"format", "title", "unit", "tape_step", "verdict", "measures", "lengths", "rules", "joins",
                            "pieces", "cloth", "certificate", "findings", "remedies", "savings", "cautions", "notes"});
  const Json &sleeve = plan["pieces"][0];
  CHECK(keys(sleeve) == Names{"name", "cut", "across", "along", "cut_across", "cut_along", "marks", "marks_mirrored"});
  CHECK(keys(sleeve["cut_across"]) == Names{"exact", "tape", "text"});
  CHECK(keys(sleeve["marks"][1]) == Names{"side", "join", "edge", "n", "name", "at"});
  CHECK(keys(sleeve["marks"][2]) == Names{"side", "join", "edge", "n", "at"});
  CHECK(keys(plan["pieces"][2]) == Names{"name", "cut", "across", "along", "cut_across", "cut_along", "marks"});
  CHECK(plan["pieces"][2]["marks"] == Json::array());
  const Json &cloth = plan["cloth"][0];
  CHECK(keys(cloth) == Names{"name", "width", "usable", "length", "bound", "shortest", "used", "buy", "lay", "cuts"});
  CHECK(keys(cloth["buy"]) == Names{"exact", "text"});
  CHECK(keys(cloth["lay"][0]) == Names{"piece", "copy", "across", "along", "turned"});
  CHECK(keys(cloth["cuts"][0]) == Names{"run", "at", "from", "to"});
}

TEST_CASE("pieces, marks on them and cuts are in the job's unit") {
  const Json plan = written(sample::job_with_pieces(), sample::plan_with_pieces());
  const Json &sleeve = plan["pieces"][0];
  CHECK(sleeve["name"] == "sleeve");
  CHECK(sleeve["cut"] == 2);
  CHECK(sleeve["across"] == 52.0);
  CHECK(sleeve["along"] == 56.0);
  CHECK(sleeve["cut_along"] == Json{{"exact", 58.5}, {"tape", 58.5}, {"text", "58.5"}});
  CHECK(sleeve["marks"].size() == 6);
  CHECK(sleeve["marks"][1] == Json::parse(R"({"side": "bottom", "join": "sleeve into cuff", "edge": "long", "n": 1,
      "name": "slit end", "at": {"exact": 4.0, "tape": 4.0, "text": "4"}})"));
  CHECK(sleeve["marks_mirrored"][1] == Json::parse(R"({"side": "bottom", "join": "sleeve into cuff", "edge": "long",
      "n": 4, "at": {"exact": 13.2, "tape": 13.2, "text": "13.2"}})"));
  CHECK(plan["pieces"][1]["marks"][0]["edge"] == "band");
  CHECK(plan["pieces"][1]["marks"][0]["side"] == "top");
  const Json &cloth = plan["cloth"][0];
  CHECK(cloth["width"] == 150.0);
  CHECK(cloth["usable"] == 148.0);
  CHECK(cloth["length"] == 58.5);
  CHECK(cloth["shortest"] == true);
  CHECK(cloth["buy"] == Json{{"exact", 58.5}, {"text", "0.6 m"}});
  CHECK(cloth["lay"][3] == Json{{"piece", "cuff"}, {"copy", 2}, {"across", 108.0}, {"along", 14.0}, {"turned", false}});
  CHECK(cloth["cuts"][0] == Json{{"run", "along"}, {"at", 54.0}, {"from", 0.0}, {"to", 58.5}});
  CHECK(cloth["cuts"][2] == Json{{"run", "across"}, {"at", 14.0}, {"from", 108.0}, {"to", 148.0}});
}

TEST_CASE("a size off the tape is read on its nearest step") {
  Plan made = sample::plan_with_pieces();
  made.pieces[0].cut_along = {585.4, 585};
  made.pieces[0].marks[2].exact = 162.4;
  const Json plan = written(sample::job_with_pieces(), made);
  CHECK(plan["pieces"][0]["cut_along"] == Json{{"exact", 58.54}, {"tape", 58.5}, {"text", "58.5"}});
  CHECK(plan["pieces"][0]["marks"][2]["at"] == Json{{"exact", 16.24}, {"tape", 16.2}, {"text", "16.2"}});
}

TEST_CASE("a job without pieces has neither pieces nor cloth in its plan") {
  const Json plan = written(sample::job(), sample::plan());
  CHECK_FALSE(plan.contains("pieces"));
  CHECK_FALSE(plan.contains("cloth"));
}

TEST_CASE("where the rules conflict both lists of what is cut are there and empty") {
  Plan conflicting;
  conflicting.verdict = Verdict::rules_conflict;
  conflicting.lengths = sample::plan().lengths;
  conflicting.conflict = Conflict{};
  const Json plan = written(sample::job_with_pieces(), conflicting);
  CHECK(plan["pieces"] == Json::array());
  CHECK(plan["cloth"] == Json::array());
}

TEST_CASE("a cloth without a name is written without one") {
  Plan made = sample::plan_with_pieces();
  made.cloth[0].cloth.name = {};
  CHECK_FALSE(written(sample::job_with_pieces(), made)["cloth"][0].contains("name"));
}

TEST_CASE("a finding about a part of a side names the join, the piece and the side") {
  Plan made = sample::plan_with_pieces();
  made.verdict = Verdict::rule_broken;
  made.findings = {finding::PastTheEnd{PartAt(SideAt(PieceId(0), Side::bottom), 0), 540, 520},
                   finding::TooWide{PieceId(2), 1600, 1480, 2}};
  const Json findings = written(sample::job_with_pieces(), made)["findings"];
  CHECK(keys(findings[0]) == Names{"level", "join", "piece", "side", "says", "measured", "limit"});
  CHECK(findings[0]["side"] == "bottom");
  CHECK(findings[0]["measured"] == 54.0);
  CHECK(keys(findings[1]) == Names{"level", "piece", "says", "measured", "limit"});
  CHECK(findings[1]["limit"] == 148.0);
}
