// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/document.hpp"
#include "tests/cli/page/text/changes.hpp"
#include "tests/made_job.hpp"

#include <catch2/catch.hpp>

using namespace gatherwright;
using namespace gatherwright::tests;
using page::Insert;
using page::Move;
using page::Remove;
using page::SetValue;

namespace {

std::string set(std::string_view text, std::string pointer, std::string json) {
  return changed_to(text, std::move(pointer), SetValue{std::move(json)});
}

} // namespace

TEST_CASE("a pointer into a short form writes the long one") {
  struct Case {
    const char *before, *pointer, *json, *after;
  };
  const Case cases[] = {
      {R"({ "lengths": { "body": "62 cm" } })", "/lengths/body/keep", "true",
       R"({ "lengths": { "body": { "is": "62 cm", "keep": true } } })"},
      {R"({ "lengths": { "body": 62.0 } })", "/lengths/body/from", R"("40 cm")",
       R"({ "lengths": { "body": { "from": "40 cm", "aim": 62.0 } } })"},
      {R"({ "lengths": { "body": "62 cm" } })", "/lengths/body/aim", R"("least")",
       R"({ "lengths": { "body": { "aim": "least" } } })"},
      {R"({ "rules": ["a <= b"] })", "/rules/0/name", R"("it goes round")",
       R"({ "rules": [{ "name": "it goes round", "holds": "a <= b" }] })"},
      {R"({ "joins": [{ "long": "62 cm" }] })", "/joins/0/long/ends", R"(["1 cm","1 cm"])",
       R"({ "joins": [{ "long": { "length": "62 cm", "ends": ["1 cm", "1 cm"] } }] })"},
      {R"({ "joins": [{ "long": "62 cm" }] })", "/joins/0/long/ends/1", R"("1 cm")",
       R"({ "joins": [{ "long": { "length": "62 cm", "ends": ["1 cm", "1 cm"] } }] })"},
      {R"({ "joins": [{ "long": "62 cm" }] })", "/joins/0/long/path", R"("M 0 0 h 20")",
       R"({ "joins": [{ "long": { "path": "M 0 0 h 20" } }] })"},
      {R"({ "joins": [{ "segments": [{ "spread": "even" }] }] })", "/joins/0/segments/0/spread/fade/0", R"("3 cm")",
       R"({ "joins": [{ "segments": [{ "spread": { "fade": ["3 cm", "3 cm"] } }] }] })"},
      {R"({ "pieces": [{ "allowance": "1 cm" }] })", "/pieces/0/allowance/bottom", R"("3 cm")",
       R"({ "pieces": [{ "allowance": { "top": "1 cm", "bottom": "3 cm", "left": "1 cm", "right": "1 cm" } }] })"},
      {R"({ "pieces": [{ "sides": { "top": "a into b" } }] })", "/pieces/0/sides/top/edge", R"("band")",
       R"({ "pieces": [{ "sides": { "top": { "join": "a into b", "edge": "band" } } }] })"},
      {R"({ "pieces": [{ "sides": { "top": "a into b" } }] })", "/pieces/0/sides/top/0/at", R"("2 cm")",
       R"({ "pieces": [{ "sides": { "top": { "join": "a into b", "at": "2 cm" } } }] })"},
      {R"({ "pieces": [{ "sides": { "top": ["a into b"] } }] })", "/pieces/0/sides/top/0/at", R"("2 cm")",
       R"({ "pieces": [{ "sides": { "top": [{ "join": "a into b", "at": "2 cm" }] } }] })"},
      {R"({ "pieces": [{ "sides": { "top": "a into b" } }] })", "/pieces/0/sides/top/1", R"({"join":"c"})",
       R"({ "pieces": [{ "sides": { "top": ["a into b", { "join": "c" }] } }] })"},
      {R"({ "pieces": [{ "sides": { "top": { "join": "a" } } }] })", "/pieces/0/sides/top/-", R"("c")",
       R"({ "pieces": [{ "sides": { "top": [{ "join": "a" }, "c"] } }] })"},
  };
  for (const auto &[before, pointer, json, after] : cases)
    CHECK(set(before, pointer, json) == after);
}

TEST_CASE("what a short form stands for is written in its place") {
  CHECK(set(R"({ "lengths": { "body": "62 cm" } })", "/lengths/body/is", R"("63 cm")") ==
        R"({ "lengths": { "body": "63 cm" } })");
  CHECK(set(R"({ "rules": ["a <= b"] })", "/rules/0/holds", R"("a <= c")") == R"({ "rules": ["a <= c"] })");
  CHECK(set(R"({ "joins": [{ "band": 12 }] })", "/joins/0/band/length", "13") == R"({ "joins": [{ "band": 13 }] })");
  CHECK(set(R"({ "pieces": [{ "sides": { "left": "a" } }] })", "/pieces/0/sides/left/join", R"("b")") ==
        R"({ "pieces": [{ "sides": { "left": "b" } }] })");
}

TEST_CASE("what a value stands in is made where it is not there, and goes where the form has it") {
  CHECK(set(R"({ "title": "Smock", "joins": [] })", "/fabric/swatch/cut", R"("30 cm")") ==
        R"({ "title": "Smock", "fabric": { "swatch": { "cut": "30 cm" } }, "joins": [] })");
  CHECK(set(R"({ "joins": [{ "band": "22 cm" }] })", "/joins/0/segments/0/kind", R"("gauge")") ==
        R"({ "joins": [{ "band": "22 cm", "segments": [{ "kind": "gauge" }] }] })");
  CHECK(set("{\n    \"joins\": []\n}", "/measures/wrist", "\"17 cm\"") ==
        "{\n    \"measures\": {\n        \"wrist\": \"17 cm\"\n    },\n    \"joins\": []\n}");
  CHECK(set(R"({ "pieces": [{ "name": "cuff" }] })", "/pieces/0/sides/top/0/at", R"("2 cm")") ==
        R"({ "pieces": [{ "name": "cuff", "sides": { "top": { "at": "2 cm" } } }] })");
  CHECK(set(R"({ "lengths": {} })", "/lengths/cuff", R"("22 cm")") == R"({ "lengths": { "cuff": "22 cm" } })");
  CHECK(set("{\n  \"lengths\": {}\n}", "/lengths/cuff", "\"22 cm\"") ==
        "{\n  \"lengths\": {\n    \"cuff\": \"22 cm\"\n  }\n}");
  CHECK(changed_to("{}", "/joins/-", Insert{R"({"name":"a into b"})"}) == R"({ "joins": [{ "name": "a into b" }] })");
}

TEST_CASE("a new key goes behind the one that the form has before it") {
  const std::string text = R"({ "joins": [{ "name": "a", "segments": [], "long": 2, "odd": 1 }] })";
  CHECK(set(text, "/joins/0/band", "1") ==
        R"({ "joins": [{ "name": "a", "segments": [], "long": 2, "band": 1, "odd": 1 }] })");
  CHECK(set(text, "/joins/0/make", "2") ==
        R"({ "joins": [{ "name": "a", "segments": [], "long": 2, "make": 2, "odd": 1 }] })");
  CHECK(set(text, "/joins/0/unknown", "2") ==
        R"({ "joins": [{ "name": "a", "segments": [], "long": 2, "odd": 1, "unknown": 2 }] })");
  CHECK(set(R"({ "joins": [] })", "/title", R"("Smock")") == R"({ "title": "Smock", "joins": [] })");
}

TEST_CASE("a field that is cleared takes along what is then left with nothing in it") {
  CHECK(set(R"({ "unit": "cm", "fabric": { "swatch": { "cut": "30 cm" } } })", "/fabric/swatch/cut", "null") ==
        R"({ "unit": "cm" })");
  CHECK(set(R"({ "fabric": { "swatch": { "cut": 1 /* cut on the grain */ } } })", "/fabric/swatch/cut", "null") ==
        "{}");
  CHECK(set(R"({ "fabric": { /* linen */ "weight": "1 g/m2", "swatch": { "cut": 1 } } })", "/fabric/swatch/cut",
            "null") == R"({ "fabric": { /* linen */ "weight": "1 g/m2" } })");
  CHECK(set("{ \"fabric\": { // linen\n \"width\": 1\n} }", "/fabric/width", "null") ==
        "{ \"fabric\": { // linen\n} }");
  CHECK(set(R"({ "measures": { "wrist": "17 cm" } })", "/measures/wrist", "null") == R"({ "measures": {} })");
  CHECK(set(R"({ "lengths": { "body": { "aim": "17 cm" } } })", "/lengths/body/aim", "null") ==
        R"({ "lengths": { "body": {} } })");
  CHECK(set(R"({ "lengths": { "body": "17 cm" } })", "/lengths/body/is", "null") == R"({ "lengths": { "body": {} } })");
  CHECK(set(R"({ "pieces": [{ "sides": { "top": "a" } }] })", "/pieces/0/sides/top/0", "null") ==
        R"({ "pieces": [{}] })");
  CHECK(set(R"({ "unit": "cm" })", "/fabric/swatch/cut", "null") == R"({ "unit": "cm" })");
}

TEST_CASE("an empty text is written as it is") {
  CHECK(set(R"({ "title": "Smock" })", "/title", R"("")") == R"({ "title": "" })");
}

TEST_CASE("a value without blanks is laid out as jobs are, any other as it is given") {
  const std::string text = "{\n  \"joins\": [\n    { \"name\": \"a\" }\n  ]\n}\n";
  CHECK(set(text, "/joins/0", R"({"name":"b: {","long":[1,2.50],"band":{}})") ==
        "{\n  \"joins\": [\n    { \"name\": \"b: {\", \"long\": [1, 2.50], \"band\": {} }\n  ]\n}\n");
  CHECK(set(text, "/joins/0", "{\"name\" :1}") == "{\n  \"joins\": [\n    {\"name\" :1}\n  ]\n}\n");
  const std::string segment = R"({"name":"a stretch of some length, gathered","kind":"gather","share":2})";
  CHECK(changed_to(text, "/joins/-", Insert{R"({"name":"sleeve","segments":[)" + segment + "," + segment + "]}"}) ==
        "{\n  \"joins\": [\n    { \"name\": \"a\" },\n    {\n      \"name\": \"sleeve\",\n      \"segments\": [\n"
        "        { \"name\": \"a stretch of some length, gathered\", \"kind\": \"gather\", \"share\": 2 },\n"
        "        { \"name\": \"a stretch of some length, gathered\", \"kind\": \"gather\", \"share\": 2 }\n"
        "      ]\n    }\n  ]\n}\n");
}

TEST_CASE("what is put into a list has lines of its own where its neighbour has them") {
  const std::string text = "{\n  \"joins\": [\n    {\n      \"name\": \"a\"\n    }\n  ]\n}\n";
  CHECK(changed_to(text, "/joins/-", Insert{R"({"name":"b","segments":[]})"}) ==
        "{\n  \"joins\": [\n    {\n      \"name\": \"a\"\n    },\n    {\n      \"name\": \"b\",\n"
        "      \"segments\": []\n    }\n  ]\n}\n");
  CHECK(set(text, "/joins/0/segments", R"([{"kind":"flat"},{}])") ==
        "{\n  \"joins\": [\n    {\n      \"name\": \"a\",\n      \"segments\": [\n        { \"kind\": \"flat\" },\n"
        "        {}\n      ]\n    }\n  ]\n}\n");
}

TEST_CASE("a comma is put right where a remark stands between it and the value") {
  CHECK(changed_to("{ \"a\": 1 // one\n, \"b\": 2 }", "/b", Remove{}) == "{ \"a\": 1 // one\n }");
  CHECK(changed_to("{ \"a\": 1 /* one */, \"b\": 2 }", "/b", Remove{}) == "{ \"a\": 1 /* one */ }");
  CHECK(changed_to("{ \"a\": 1 // one\n}", "/b", Insert{"2"}) == "{ \"a\": 1, // one\n  \"b\": 2\n}");
  CHECK(changed_to("{ \"a\": 1 /* one */ }", "/b", Insert{"2"}) == "{ \"a\": 1 /* one */, \"b\": 2 }");
  CHECK(changed_to("{\n  \"a\": 1, // one\n  \"b\": 2 // two\n}", "/b", Move{0}) ==
        "{\n  \"b\": 2, // two\n  \"a\": 1 // one\n}");
  CHECK(changed_to("{ \"a\": 1, \"b\": 2 // two\n}", "/b", Move{0}) == "{ \"b\": 2, // two\n \"a\": 1\n}");
}

TEST_CASE("a change that cannot be made is a fault at its place") {
  const std::string text =
      "{\n  \"measures\": { \"wrist\": \"17 cm\" },\n  \"joins\": [\n    { \"name\": \"a\" }\n  ]\n}";
  struct Case {
    cli::InputFault fault;
    int line;
    const char *pointer, *what;
  };
  const Case cases[] = {
      {fault_of_change(text, "/joins/5", Remove{}), 3, "/joins/5", "there is nothing at \"/joins/5\""},
      {fault_of_change(text, "/lengths", Remove{}), 1, "/lengths", "there is nothing at \"/lengths\""},
      {fault_of_change(text, "", Remove{}), 1, "", "this is the job itself"},
      {fault_of_change(text, "/joins/0", Move{1}), 4, "/joins/0", "there is no place 1 among 1"},
      {fault_of_change(text, "/joins/3", Insert{"{}"}), 3, "/joins/3", "there is no place \"3\" in a list of 1"},
      {fault_of_change(text, "/measures/wrist", Insert{"1"}), 2, "/measures/wrist", "\"wrist\" is there already"},
      {fault_of_change(text, "/measures/cm", Insert{"1"}), 2, "/measures/cm", "cm is a unit"},
      {fault_of_change(text, "/joins/0/name/of", SetValue{"1"}), 4, "/joins/0/name/of",
       "what stands here has no \"of\""},
      {fault_of_change(text, "/joins/0/name", SetValue{"nonsense"}), 4, "/joins/0/name",
       "\"nonsense\" stands here without quotes"},
      {fault_of_change(text, "joins", SetValue{"1"}), 1, "joins", "\"joins\" is no pointer"},
      {fault_of_change("{ \"a\": }", "/a", SetValue{"1"}), 1, "", "a value is missing before \"}\""},
  };
  for (const auto &[fault, line, pointer, what] : cases) {
    CHECK(fault.line == line);
    CHECK(fault.pointer == pointer);
    CHECK(fault.fault.what == what);
  }
}

TEST_CASE("what would make a text too deep or too long is a fault") {
  std::string deep;
  for (int level = 0; level < cli::deepest_level - 1; ++level)
    deep += "[";
  deep += std::string(deep.size(), ']');
  CHECK(set(R"({ "a": 1 })", "/a", deep) == "{ \"a\": " + deep + " }");
  CHECK(fault_of_change(R"({ "a": [1] })", "/a/0", SetValue{deep}).fault.what ==
        "brackets are nested more than 100 deep");
  const std::string long_text(cli::longest_text - 20, 'x');
  CHECK(fault_of_change("{ \"a\": 1, \"b\": \"" + long_text + "\" }", "/a", SetValue{"\"and a little more of it\""})
            .fault.what == "the file is longer than 10 MB");
}
