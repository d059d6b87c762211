// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/commands/command_test.hpp"

#include "tests/where.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace gatherwright::cli;
using command_test::lines_of;
using command_test::run;
using command_test::Written;
using gatherwright::tests::holds;

namespace {

std::string job(std::string_view long_edge, std::string_view band) {
  return R"({ "joins": [ { "name": "sleeve into cuff", "long": ")" + std::string(long_edge) + R"(", "band": ")" +
         std::string(band) + "\" } ] }";
}

} // namespace

TEST_CASE("the status says whether the plan is within limits") {
  CHECK(run({"plan", Written(job("52 cm", "22 cm")).path()}).status == Status::within_limits);
  CHECK(run({"plan", Written(job("152 cm", "22 cm")).path()}).status == Status::not_within_limits);
  CHECK(run({"plan", Written(job("12 cm", "22 cm")).path()}).status == Status::not_within_limits);
}

TEST_CASE("text and JSON of one plan say the same") {
  const Written file(job("52 cm", "22 cm"));
  const Answer text = run({"plan", file.path()});
  const Answer json = run({"plan", file.path(), "--json"});
  CHECK(holds(text.out, "Verdict: within limits"));
  CHECK(text.err.empty());
  const auto plan = nlohmann::json::parse(json.out);
  CHECK(plan["verdict"] == "within limits");
  CHECK(plan["joins"][0]["fullness"].get<double>() == Approx(52.0 / 22).epsilon(1e-12));
  CHECK_FALSE(plan["joins"][0].contains("profile"));
  CHECK(nlohmann::json::parse(run({"plan", file.path(), "--json", "--profile"}).out)["joins"][0]["profile"]["band"]
            .size() >= 200);
}

TEST_CASE("the same job gives the same bytes") {
  const Written file(job("52 cm", "22 cm"));
  CHECK(run({"plan", file.path(), "--json"}).out == run({"plan", file.path(), "--json"}).out);
}

TEST_CASE("faults of a job are told one a line with file, line and pointer, and nothing else is") {
  const Written file(
      "{\n  \"unit\": \"cmm\",\n  \"joins\": [\n    { \"name\": \"x\", \"long\": \"52 cms\", \"band\": 0 }\n  ]\n}\n");
  const Answer answer = run({"plan", file.path()});
  CHECK(answer.status == Status::unusable);
  CHECK(answer.out.empty());
  const auto lines = lines_of(answer.err);
  REQUIRE(lines.size() == 3);
  CHECK(lines[0].starts_with(file.path() + ":2: /unit: "));
  CHECK(lines[1].starts_with(file.path() + ":4: /joins/0/long: "));
  CHECK(lines[2].starts_with(file.path() + ":4: /joins/0/band: "));
  for (const std::string &line : lines)
    CHECK(holds(line, "; "));
}

TEST_CASE("no more than twenty faults are told") {
  std::string text = "{ \"joins\": [";
  for (int i = 0; i < 100; ++i)
    text += std::string(i == 0 ? "" : ",") + "\n{ \"name\": \"" + std::to_string(i) + "\" }";
  const Answer answer = run({"plan", Written(text + "\n] }").path()});
  CHECK(answer.status == Status::unusable);
  CHECK(lines_of(answer.err).size() == 20);
}

TEST_CASE("a fault that only planning sees has its line and pointer too") {
  const Written file("{ \"joins\": [ { \"name\": \"x\", \"long\": \"52 cm\", \"band\": \"22 cm\",\n"
                     "  \"segments\": [ { \"kind\": \"gather\",\n"
                     "    \"spread\": { \"fade\": [\"12 cm\", \"12 cm\"] } } ] } ] }\n");
  const Answer answer = run({"plan", file.path()});
  CHECK(answer.status == Status::unusable);
  CHECK(answer.out.empty());
  CHECK(answer.err.starts_with(file.path() + ":3: /joins/0/segments/0/spread/fade: "));
}

TEST_CASE("a file that cannot be read is a fault of the machine, told in one line") {
  for (const char *path : {"/nowhere/at/all.json", "/", ""}) {
    const Answer answer = run({"plan", path});
    CHECK(answer.status == Status::machine);
    CHECK(answer.out.empty());
    CHECK(lines_of(answer.err).size() == 1);
  }
}

TEST_CASE("an input without end is read no further than a job may be long") {
  const Answer answer = run({"plan", "/dev/zero"});
  CHECK(answer.status == Status::unusable);
  CHECK(lines_of(answer.err).size() == 1);
}

TEST_CASE("the example is within limits") {
  const Answer answer = run({"plan", in_project("docs/examples/porters-smock.json")});
  CHECK(answer.err.empty());
  CHECK(answer.status == Status::within_limits);
  CHECK(holds(answer.out, "sleeve 52 cm, chosen ("));
}

TEST_CASE(
    "in the example the gathers stop short of the shoulder seams, whose marks stand on the collar with the centre "
    "back") {
  // Common practice, no source.
  const auto plan = nlohmann::json::parse(run({"plan", in_project("docs/examples/porters-smock.json"), "--json"}).out);
  const auto &neck = plan["joins"][0];
  std::vector<std::string> named;
  for (const auto &mark : neck["marks"])
    if (mark.contains("name") && (holds(mark["name"].get<std::string>(), "shoulder") || mark["name"] == "centre back"))
      named.push_back(mark["name"]);
  CHECK(named == std::vector<std::string>{"left shoulder", "centre back", "right shoulder"});
  for (const auto &segment : neck["segments"])
    if (holds(segment["name"].get<std::string>(), "seam")) CHECK(segment["kind"] == "flat");
}

TEST_CASE(
    "in the example the sleeve head goes into four to six inches, and the centre of the cuff meets the sleeve's") {
  // Common practice, no source.
  const auto plan = nlohmann::json::parse(run({"plan", in_project("docs/examples/porters-smock.json"), "--json"}).out);
  const auto &head = plan["joins"][1]["segments"];
  const double space = head[1]["band"].get<double>() + head[2]["band"].get<double>();
  CHECK(space >= 4 * 2.54);
  CHECK(space <= 6 * 2.54);
  CHECK(head[0]["kind"] == "flat");
  CHECK(head[3]["kind"] == "flat");
  const auto &cuff = plan["joins"][2];
  const auto centre = std::find_if(cuff["marks"].begin(), cuff["marks"].end(),
                                   [](const auto &mark) { return mark.value("name", "") == "centre"; });
  REQUIRE(centre != cuff["marks"].end());
  CHECK((*centre)["band"]["exact"].get<double>() == Approx(cuff["band"].get<double>() / 2).epsilon(1e-9));
  CHECK((*centre)["long"]["exact"].get<double>() == Approx(cuff["long"].get<double>() / 2).epsilon(1e-9));
}
