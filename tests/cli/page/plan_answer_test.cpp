// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/plan_answer.hpp"
#include "cli/report/plan_json.hpp"
#include "tests/made_job.hpp"
#include "tests/planned.hpp"
#include "tests/where.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <fstream>
#include <functional>
#include <iterator>
#include <set>
#include <string>
#include <utility>
#include <vector>

using namespace gatherwright;
using nlohmann::ordered_json;
using page::Have;
using page::plan_answer;
using page::Width;

namespace {

std::string example() {
  std::ifstream file(in_project("docs/examples/porters-smock.json"), std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// The digests that an answer tells.
Have had(const ordered_json &answer) {
  Have have;
  for (const auto &[name, fragment] : answer.at("sheet").items())
    have.emplace(name, fragment.at("digest").get<std::string>());
  return have;
}

std::string with(std::string text, const std::string &old, const std::string &now) {
  const std::size_t at = text.find(old);
  REQUIRE(at != std::string::npos);
  return text.replace(at, old.size(), now);
}

} // namespace

TEST_CASE("what a page is told of a job holds the plan that the program makes of it, with its profile") {
  const Job job = tests::job_of(example());
  const auto answer = ordered_json::parse(plan_answer(example(), {Width::wide}));
  CHECK(answer.at("faults").empty());
  CHECK(answer.at("plan") == ordered_json::parse(report::plan_json(job, tests::plan_of(job, {.profile = true}))));
  CHECK(answer.at("plan").at("joins").at(0).contains("profile"));
}

TEST_CASE("what a page is told of a job has its values in the order and the spelling in which they are written") {
  const std::string text = R"({ "unit": "cm", // of all
    "measures": { "wrist": 17.50, "arm": "60 cm" },
    /* sewn first */ "joins": [ { "band": "wrist + 4 cm", "long": 52, "name": "hem" } ] })";
  const std::string answer = plan_answer(text, {});
  CHECK(answer.find("17.50") != std::string::npos);
  const auto told = ordered_json::parse(answer);
  CHECK(told.at("job") == ordered_json::parse(text, nullptr, true, true));
  CHECK(told.at("remarks") == ordered_json({{"/unit", "of all"}, {"/joins", "sewn first"}}));
  CHECK_FALSE(told.contains("sheet"));
}

TEST_CASE("a fragment that a page has comes without its text, and one that differs with it") {
  const auto first = ordered_json::parse(plan_answer(example(), {Width::wide}));
  const Have have = had(first);
  for (const auto &[name, fragment] : first.at("sheet").items())
    CHECK(fragment.contains("html"));

  const auto again = ordered_json::parse(plan_answer(example(), {Width::wide, have}));
  for (const auto &[name, fragment] : again.at("sheet").items()) {
    CHECK_FALSE(fragment.contains("html"));
    CHECK(fragment.at("digest") == have.at(name));
  }

  const std::string changed = with(example(), R"("aim": "52 cm")", R"("aim": "50 cm")");
  const auto full = ordered_json::parse(plan_answer(changed, {Width::wide}));
  const auto differs = ordered_json::parse(plan_answer(changed, {Width::wide, have}));
  std::size_t sent = 0;
  for (const auto &[name, fragment] : differs.at("sheet").items()) {
    const bool same = first.at("sheet").contains(name) && first.at("sheet").at(name) == full.at("sheet").at(name);
    CHECK(fragment.contains("html") == !same);
    if (fragment.contains("html")) ++sent;
  }
  CHECK(sent > 0);
  CHECK(sent < differs.at("sheet").size());
}

TEST_CASE("a fragment that a page has and nobody sees is left as it is, and told whole when all are asked for again") {
  const auto first = ordered_json::parse(plan_answer(example(), {Width::wide}));
  const std::string changed = with(example(), R"("aim": "52 cm")", R"("aim": "50 cm")");
  Have have = had(first);
  have.erase("notes"); // never had: it comes, seen or not
  const auto some = ordered_json::parse(
      plan_answer(changed, {.width = Width::wide, .have = have, .seen = {{"verdict", "join-3-picture"}}}));
  for (const auto &[name, fragment] : some.at("sheet").items()) {
    INFO(name);
    const bool told = name == "verdict" || name == "join-3-picture" || name == "notes";
    CHECK(fragment.contains("digest") == told);
    CHECK(fragment.contains("html") == (name == "join-3-picture" || name == "notes"));
  }
  const auto all = ordered_json::parse(plan_answer(changed, {Width::wide, have}));
  CHECK(all.at("sheet").at("join-3-curve").contains("html"));
  CHECK(all.at("sheet").at("join-3-picture") == some.at("sheet").at("join-3-picture"));
}

TEST_CASE("while a slide is held a page is told the same plan but for profiles and what would save cloth") {
  auto whole = ordered_json::parse(plan_answer(example(), {}));
  auto held = ordered_json::parse(plan_answer(example(), {.held = true}));
  CHECK_FALSE(whole.at("plan").at("savings").empty());
  CHECK(held.at("plan").at("savings").empty());
  whole.at("plan").erase("savings");
  held.at("plan").erase("savings");
  for (ordered_json &join : whole.at("plan").at("joins"))
    CHECK(join.erase("profile") == 1);
  CHECK(whole == held);
}

TEST_CASE("while a slide is held pieces are laid where a layout is in view, and else those that a page has stay") {
  const auto first = ordered_json::parse(plan_answer(example(), {Width::wide}));
  const std::string changed = with(example(), R"("aim": "52 cm")", R"("aim": "50 cm")");
  const auto full = ordered_json::parse(plan_answer(changed, {Width::wide}));
  REQUIRE(first.at("sheet").at("cloth-1") != full.at("sheet").at("cloth-1"));
  const auto asked = [&](std::set<std::string, std::less<>> seen) {
    return ordered_json::parse(
        plan_answer(changed, {.width = Width::wide, .have = had(first), .held = true, .seen = std::move(seen)}));
  };

  const auto unseen = asked({"verdict", "join-3-picture"});
  CHECK(unseen.at("plan").at("cloth").empty());
  CHECK(unseen.at("sheet").at("cloth-1").empty());
  CHECK(unseen.at("sheet").at("join-3-picture") == full.at("sheet").at("join-3-picture"));
  std::vector<std::string> names;
  for (const auto &[name, fragment] : unseen.at("sheet").items())
    names.push_back(name);
  std::vector<std::string> names_in_full;
  for (const auto &[name, fragment] : full.at("sheet").items())
    if (name != "savings") names_in_full.push_back(name);
  std::erase(names, "savings");
  CHECK(names == names_in_full);

  const auto seen = asked({"verdict", "cloth-1"});
  CHECK(seen.at("plan").at("cloth") == full.at("plan").at("cloth"));
  CHECK(seen.at("sheet").at("cloth-1") == full.at("sheet").at("cloth-1"));
}

TEST_CASE("every fault of a job is told to a page with its line and place, and its values are there all the same") {
  const std::string text = R"({
    "fabric": { "weight": "165" },
    "joins": [ { "name": "hem", "long": "52 furlongs", "band": "22 cm" } ] })";
  const auto answer = ordered_json::parse(plan_answer(text, {Width::narrow}));
  REQUIRE(answer.at("faults").size() == 2);
  CHECK(answer.at("faults")[0].at("line") == 2);
  CHECK(answer.at("faults")[0].at("pointer") == "/fabric/weight");
  CHECK(answer.at("faults")[1].at("pointer") == "/joins/0/long");
  for (const auto &fault : answer.at("faults")) {
    CHECK_FALSE(fault.at("what").get<std::string>().empty());
    CHECK_FALSE(fault.at("instead").get<std::string>().empty());
  }
  CHECK(answer.at("job") == ordered_json::parse(text));
  CHECK_FALSE(answer.contains("plan"));
  CHECK_FALSE(answer.contains("sheet"));
}

TEST_CASE("what only planning can see is told to a page at its place too") {
  const std::string text = R"({ "joins": [ { "name": "hem", "long": "52 cm", "band": "22 cm",
    "segments": [ { "spread": { "fade": ["20 cm", "20 cm"] } } ] } ] })";
  const auto answer = ordered_json::parse(plan_answer(text, {Width::wide}));
  REQUIRE(answer.at("faults").size() == 1);
  CHECK(answer.at("faults")[0].at("line") == 2);
  CHECK(answer.at("faults")[0].at("pointer").get<std::string>().starts_with("/joins/0/segments/0/spread"));
}

TEST_CASE("of a text that is no JSON a page is told where it breaks, and no more") {
  const auto answer = ordered_json::parse(plan_answer("{ \"unit\": \"cm\",\n  joins }", {Width::wide}));
  REQUIRE(answer.size() == 1);
  REQUIRE(answer.at("faults").size() == 1);
  CHECK(answer.at("faults")[0].at("line") == 2);
}
