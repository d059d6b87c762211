// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/assets.hpp"
#include "cli/page/requests.hpp"
#include "tests/where.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>

using namespace gatherwright::page;
using Json = nlohmann::ordered_json;

namespace {

gatherwright::cli::Ended no_digest(std::string_view, std::string &digest) {
  digest = "digest";
  return gatherwright::cli::Ended::well;
}

const std::string cuff = R"({
  "unit": "cm",
  "fabric": { "weight": "150 g/m2" },
  "measures": { "wrist": 17 },
  "lengths": { "cuff": "wrist + 5 cm", "sleeve": 46 },
  "joins": [ { "name": "sleeve into cuff", "long": "sleeve", "band": "cuff" },
             { "name": "other sleeve into cuff", "long": "sleeve", "band": "cuff" } ]
})";

Reply asked(const std::string &method, const std::string &path, const std::string &body = "") {
  static constexpr std::array offered{Start{"cuff", "a sleeve", "{}"}, Start{"frill", "a frill", "// a text\n"}};
  JobFile file(std::nullopt, no_digest);
  return answer({method, path, body}, {file, offered});
}

Reply posted(const std::string &path, const Json &body) {
  return asked("POST", path, body.dump());
}

Json told(const Reply &reply) {
  REQUIRE(reply.status == 200);
  REQUIRE(reply.type == "application/json");
  return Json::parse(reply.body);
}

std::size_t faults(const Reply &reply) {
  return told(reply).at("faults").size();
}

} // namespace

TEST_CASE("the page's files are those of its folder, as they are") {
  std::set<std::string> names;
  for (const auto &each : std::filesystem::directory_iterator(in_project("cli/page/assets"))) {
    const std::string name = each.path().filename().string();
    names.insert(name);
    std::ifstream file(each.path(), std::ios::binary);
    const Reply reply = asked("GET", name);
    CHECK(reply.status == 200);
    CHECK(reply.type == type_of(name));
    CHECK(reply.body == std::string(std::istreambuf_iterator<char>(file), {}));
  }
  CHECK(names.size() == assets().size());
  CHECK(asked("GET", "").body == asked("GET", "index.html").body);
  CHECK(asked("GET", "").type == "text/html; charset=utf-8");
  CHECK(type_of("a.js") == "text/javascript; charset=utf-8");
}

TEST_CASE("what the page does not ask for is refused") {
  for (const std::string path : {"none", "assets/index.html", "index.htm", "/", "job/", "job?", "Job", "plan.json"}) {
    CHECK(asked("GET", path).status == 404);
    CHECK(asked("POST", path, "{}").status == 404);
  }
  for (const std::string path : {"job", "starts", "alive", "patterns"})
    CHECK(asked("POST", path, "{}").status == 405);
  for (const std::string path : {"plan", "change", "save", "strips", "sheet", "layout", "cast"}) {
    CHECK(asked("GET", path).status == 405);
    for (const std::string body : {"", "{", "[]", "5", "{}", R"({ "text": null })", "{ \"text\": \"\xFF\" }"}) {
      const Reply reply = asked("POST", path, body);
      CHECK(reply.status == 400);
      CHECK(std::count(reply.body.begin(), reply.body.end(), '\n') == 1);
    }
    // So deep that who reads it by calling itself would run out of stack.
    CHECK(asked("POST", path, "{\"text\":" + std::string(1'000'000, '[')).status == 400);
  }
}

TEST_CASE("the page is offered the jobs to start from") {
  const Json starts = told(asked("GET", "starts"));
  REQUIRE(starts.size() == 2);
  CHECK(starts[1] == Json{{"name", "frill"}, {"summary", "a frill"}, {"text", "// a text\n"}});
  CHECK(told(asked("GET", "job")) == Json{{"name", nullptr}, {"text", ""}, {"read", nullptr}});
  CHECK(told(asked("GET", "alive")) == Json{{"read", nullptr}});
}

TEST_CASE("a plan is an answer, and so are a text's faults") {
  const Json plan = told(posted("plan", {{"text", cuff}, {"width", "wide"}, {"have", Json::object()}}));
  CHECK(plan["faults"].empty());
  CHECK(plan["plan"]["joins"].size() == 2);
  CHECK(plan["job"]["measures"]["wrist"] == 17);
  const Json at_fault = told(posted("plan", {{"text", "{\n  \"joins\": [ 5 ]\n}"}}));
  CHECK(at_fault["faults"].size() >= 1);
  CHECK(at_fault["faults"][0].contains("line"));
  CHECK_FALSE(at_fault.contains("plan"));
}

TEST_CASE("of strips those joins are drawn that are asked for") {
  const auto strips = [](const Json &joins) {
    const Reply reply = posted("strips", {{"text", cuff}, {"form", "svg"}, {"joins", joins}});
    CHECK(reply.status == 200);
    CHECK(reply.type == "image/svg+xml");
    return reply.body;
  };
  const std::string all = strips(nullptr);
  CHECK(strips({"sleeve into cuff", "other sleeve into cuff"}) == all);
  CHECK(strips({1, 0}) == all);
  const std::string one = strips({1});
  CHECK(one == strips({"other sleeve into cuff"}));
  CHECK(one.size() < all.size());
  CHECK(one.find("other sleeve") != std::string::npos);
  CHECK(all.find(">sleeve into cuff") != std::string::npos);
  CHECK(one.find(">sleeve into cuff") == std::string::npos);
  for (const Json &wrong : {Json{2}, Json{-1}, Json{"none"}, Json{1.5}, Json("sleeve into cuff"), Json{nullptr}})
    CHECK(posted("strips", {{"text", cuff}, {"form", "svg"}, {"joins", wrong}}).status == 400);
}

TEST_CASE("what there is nothing to put on paper of is told as a fault") {
  CHECK(faults(posted("layout", {{"text", cuff}})) == 1);
  CHECK(faults(posted("sheet", {{"text", "{"}})) == 1);
  CHECK(posted("sheet", {{"text", cuff}, {"form", "svg"}}).status == 400);
  CHECK(posted("sheet", {{"text", cuff}, {"paper", "a5"}}).status == 400);
  CHECK(posted("sheet", {{"text", cuff}, {"form", "html"}}).type == "text/html; charset=utf-8");
}

TEST_CASE("every wearer of a list has a row") {
  const Json told_of = told(posted("cast", {{"text", cuff}, {"list", "wearer,wrist\nAlto,17\nBass,60\nTenor,\n"}}));
  REQUIRE(told_of["rows"].size() == 3);
  CHECK(told_of["rows"][0] == Json{{"wearer", "Alto"},
                                   {"verdict", "within limits"},
                                   {"reason", ""},
                                   {"lengths", {{"cuff", "22 cm"}, {"sleeve", "46 cm"}}}});
  CHECK(told_of["rows"][1]["verdict"] == "cannot be gathered");
  CHECK(told_of["rows"][1]["lengths"]["cuff"] == "65 cm");
  CHECK(told_of["rows"][1]["reason"] != "");
  CHECK(told_of["rows"][2]["lengths"]["cuff"] == "22 cm");
  CHECK(told_of["not_planned"] == 0);
}

TEST_CASE("of a list that is too much work for its job it is said how many wearers are left") {
  std::string text = R"({ "measures": { "wrist": "17 cm" }, "joins": [ )";
  for (int i = 0; i < 500; ++i)
    text += R"({ "name": "j)" + std::to_string(i) + R"(", "long": "46 cm", "band": "wrist + 5 cm" }, )";
  text += R"({ "name": "last", "long": "46 cm", "band": "wrist + 5 cm" } ] })";
  std::string list = "wearer,wrist\n";
  for (int i = 0; i < 12; ++i)
    list += "w" + std::to_string(i) + ",17\n";
  const Json told_of = told(posted("cast", {{"text", text}, {"list", list}}));
  CHECK(told_of["rows"].size() == 9); // of 501 joins with a segment each, that is a million a wearer
  CHECK(told_of["not_planned"] == 3);
}

TEST_CASE("a list's faults are told, and how long it may be") {
  const auto cast = [](const std::string &list) { return posted("cast", {{"text", cuff}, {"list", list}}); };
  CHECK(faults(cast("wearer,ankle\nAlto,17\n")) == 1);
  CHECK(faults(cast("wearer,wrist\nAlto,x\nAlto,y\n")) >= 2);
  std::string rows;
  for (int i = 0; i < 1000; ++i)
    rows += "W" + std::to_string(i) + ",\n";
  CHECK(told(cast("wearer,wrist\n" + rows))["rows"].size() == 1000);
  CHECK(faults(cast("wearer,wrist\n" + rows + "one more,\n")) == 1);
  CHECK(faults(posted("cast", {{"text", "{"}, {"list", "wearer\nAlto\n"}})) == 1);
}

TEST_CASE("one change is asked for at a time") {
  for (const Json &none :
       {Json::object(), Json{{"value", 1}, {"insert", 1}}, Json{{"remove", false}}, Json{{"move", "1"}},
        Json{{"slide", 0.5}}, Json{{"slide", 1e30}}, Json{{"rename", 1}}, Json{{"remedy", nullptr}}}) {
    Json body{{"text", cuff}, {"pointer", ""}};
    body.update(none);
    CHECK(posted("change", body).status == 400);
  }
  CHECK(posted("change", {{"text", cuff}, {"remove", true}}).status == 400);
}

TEST_CASE("a slide and what comes of it are told in one answer, the same as asked one after the other") {
  const Json slid = told(posted("change", {{"text", cuff}, {"pointer", "/lengths/sleeve"}, {"slide", 3}}));
  const Json after = told(posted("plan", {{"text", slid.at("text")}, {"width", "wide"}}));
  Json both = told(posted("plan", {{"text", cuff}, {"pointer", "/lengths/sleeve"}, {"slide", 3}, {"width", "wide"}}));
  CHECK(both.at("text") == slid.at("text"));
  both.erase("text");
  CHECK(both == after);
}

TEST_CASE("a change that cannot be made is refused where what comes of it is asked too") {
  const Json refused = told(posted("plan", {{"text", cuff}, {"pointer", "/lengths/collar"}, {"slide", 3}}));
  CHECK(refused.at("refused") == true);
  CHECK(refused.at("faults") ==
        told(posted("change", {{"text", cuff}, {"pointer", "/lengths/collar"}, {"slide", 3}})).at("faults"));
  CHECK_FALSE(refused.contains("plan"));
  CHECK(posted("plan", {{"text", cuff}, {"pointer", "/lengths/sleeve"}}).status == 400);
}

TEST_CASE("every change that a body can ask for is one") {
  for (const Json &change :
       {Json{{"value", 46}}, Json{{"insert", 46}}, Json{{"remove", true}}, Json{{"move", 0}},
        Json{{"rename", "sleeve"}}, Json{{"slide", 1}}, Json{{"remedy", 0}}, Json{{"saving", 0}}}) {
    Json body = {{"text", cuff}, {"pointer", "/lengths/sleeve"}};
    body.update(change);
    INFO(body.dump());
    CHECK(posted("change", body).status == 200);
  }
}
