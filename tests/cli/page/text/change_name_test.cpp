// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/plan_json.hpp"
#include "tests/cli/page/text/changes.hpp"
#include "tests/cli/page/text/odd_text.hpp"
#include "tests/good_jobs.hpp"

#include <catch2/catch.hpp>

#include <regex>

using namespace gatherwright;
using namespace gatherwright::tests;
using page::Rename;

namespace {

std::string rename(std::string_view text, std::string pointer, std::string name) {
  return changed_to(text, std::move(pointer), Rename{std::move(name)});
}

std::string plan_told(const std::string &text) {
  const Job job = job_of(text);
  return report::plan_json(job, plan_of(job, {.layouts = false}));
}

/// The lengths of a plan without what binds them, where joins and pieces are named.
Json without_binds(Json lengths) {
  for (Json &length : lengths)
    length.erase("binds");
  return lengths;
}

/// A text with one whole word in place of another.
std::string with_word(const std::string &text, const std::string &word, const std::string &other) {
  return std::regex_replace(text, std::regex("\\b" + word + "\\b"), other);
}

} // namespace

TEST_CASE("a length is renamed wherever formulas name it, and nowhere else") {
  const std::string text = R"job({
  // the cuff is a cuff
  "title": "cuff", "measures": { "cuff_2": "17 cm" },
  "lengths": { "cuff": "22 cm", "a": "2 * (cuff+cuff_2) - max(cuff, 5 cm)", "b": { "from": "cuff", "aim": "least" } },
  "rules": [ "cuff <= 60 cm", { "name": "cuff", "holds": "a = cuff" } ], "marks": { "apart": "cuff / 4" },
  "joins": [ { "name": "cuff", "long": "a", "band": { "length": "cuff", "ends": ["cuff", 1] },
    "segments": [ { "to": "cuff", "band": "c\u0075ff - 5' 1\"", "spread": { "fade": ["cuff", "1 cm"] } } ] } ],
  "pieces": [ { "name": "cuff", "across": "cuff", "along": "12 cm", "allowance": "cuff / 9",
    "sides": { "top": { "join": "cuff", "to": "cuff", "at": "cuff" }, "left": "cuff" } } ]
})job";
  const std::string after = rename(text, "/lengths/cuff", "wristband");
  CHECK(after == R"job({
  // the cuff is a cuff
  "title": "cuff", "measures": { "cuff_2": "17 cm" },
  "lengths": { "wristband": "22 cm", "a": "2 * (wristband+cuff_2) - max(wristband, 5 cm)", "b": { "from": "wristband", "aim": "least" } },
  "rules": [ "wristband <= 60 cm", { "name": "cuff", "holds": "a = wristband" } ], "marks": { "apart": "wristband / 4" },
  "joins": [ { "name": "cuff", "long": "a", "band": { "length": "wristband", "ends": ["wristband", 1] },
    "segments": [ { "to": "cuff", "band": "wristband - 5' 1\"", "spread": { "fade": ["wristband", "1 cm"] } } ] } ],
  "pieces": [ { "name": "cuff", "across": "wristband", "along": "12 cm", "allowance": "wristband / 9",
    "sides": { "top": { "join": "cuff", "to": "cuff", "at": "wristband" }, "left": "cuff" } } ]
})job");
}

TEST_CASE("a join and a mark are renamed in the sides that name them") {
  const std::string text = R"({ "title": "a into b",
  "joins": [ { "name": "a into b", "segments": [ { "name": "m", "to": "m" }, { "to": "n" }, {} ] },
             { "name": "c", "segments": [ { "to": "m" }, {} ] } ],
  "pieces": [ { "name": "a into b", "sides": { "top": "a into b", "left": [ "a into b", { "join": "a into b", "from": "m", "to": "n" } ],
    "right": { "join": "c", "from": "m" } } } ] })";
  CHECK(rename(text, "/joins/0", "sleeve") == R"({ "title": "a into b",
  "joins": [ { "name": "sleeve", "segments": [ { "name": "m", "to": "m" }, { "to": "n" }, {} ] },
             { "name": "c", "segments": [ { "to": "m" }, {} ] } ],
  "pieces": [ { "name": "a into b", "sides": { "top": "sleeve", "left": [ "sleeve", { "join": "sleeve", "from": "m", "to": "n" } ],
    "right": { "join": "c", "from": "m" } } } ] })");
  CHECK(rename(text, "/joins/0/name", "sleeve") == rename(text, "/joins/0", "sleeve"));
  CHECK(rename(text, "/joins/0/segments/0/to", "centre") == R"({ "title": "a into b",
  "joins": [ { "name": "a into b", "segments": [ { "name": "m", "to": "centre" }, { "to": "n" }, {} ] },
             { "name": "c", "segments": [ { "to": "m" }, {} ] } ],
  "pieces": [ { "name": "a into b", "sides": { "top": "a into b", "left": [ "a into b", { "join": "a into b", "from": "centre", "to": "n" } ],
    "right": { "join": "c", "from": "m" } } } ] })");
  CHECK(rename(text, "/pieces/0", "sleeve").find(R"("pieces": [ { "name": "sleeve", "sides": { "top": "a into b")") !=
        std::string::npos);
}

TEST_CASE("a name that is none, is taken or is a word of formulas is refused") {
  const std::string text = R"({ "measures": { "wrist": "17 cm" }, "lengths": { "cuff": "22 cm" },
    "joins": [ { "name": "a", "segments": [ { "to": "m" }, { "to": "n" }, {} ] }, { "name": "b" } ],
    "pieces": [ { "name": "p", "sides": { "top": { "join": "a", "to": "m" } } }, { "name": "q" } ] })";
  for (const char *name : {"", "wrist", "cm", "min", "pi", "cloth_width", "2a", "a b", "a-b", "nail"})
    CHECK_FALSE(fault_of_change(text, "/lengths/cuff", Rename{name}).fault.what.empty());
  for (const char *name : {"", "b", "a\nb"})
    CHECK_FALSE(fault_of_change(text, "/joins/0", Rename{name}).fault.what.empty());
  for (const char *name : {"", "q", "a\tb"})
    CHECK_FALSE(fault_of_change(text, "/pieces/0", Rename{name}).fault.what.empty());
  for (const char *name : {"", "n", "start", "end"})
    CHECK_FALSE(fault_of_change(text, "/joins/0/segments/0/to", Rename{name}).fault.what.empty());
  for (const char *nothing : {"", "/joins", "/title", "/lengths/none", "/joins/0/segments/2/to", "/joins/0/segments/0"})
    CHECK(fault_of_change(text, nothing, Rename{"x"}).fault.what.find("nothing at") != std::string::npos);
  CHECK(rename(text, "/lengths/cuff", "cuff") == text);
  CHECK(rename(text, "/lengths/cuff", "Ärmelbund").find(R"("Ärmelbund": "22 cm")") != std::string::npos);
}

TEST_CASE("renamed anywhere in a good job, the plan is the same but for the name") {
  const std::string new_name = "quite_another_name";
  int renamed = 0;
  for (const std::string &text : good_job_texts()) {
    const std::string told = plan_told(text);
    const Json values = values_of(text);
    std::vector<std::pair<std::string, std::string>> names; // pointer, name
    for (const char *kind : {"measures", "lengths"})
      if (values.contains(kind))
        for (const auto &[name, value] : values[kind].items())
          names.emplace_back(std::string("/") + kind + "/" + name, name);
    for (const auto &[pointer, name] : names) {
      INFO(pointer << "\n" << text);
      const std::string other = plan_told(rename(text, pointer, new_name));
      const std::string kind = pointer.substr(1, pointer.find('/', 1) - 1);
      REQUIRE(Json::parse(other)[kind].contains(new_name));
      REQUIRE_FALSE(Json::parse(other)[kind].contains(name));
      REQUIRE(with_word(told, name, "it") == with_word(with_word(other, new_name, "it"), name, "it"));
      ++renamed;
    }
    for (const char *kind : {"joins", "pieces"})
      for (std::size_t i = 0; values.contains(kind) && i < values[kind].size(); ++i) {
        const std::string pointer = std::string("/") + kind + "/" + std::to_string(i);
        const Json before = Json::parse(told);
        const Json after = Json::parse(plan_told(rename(text, pointer, new_name)));
        INFO(pointer << "\n" << text);
        REQUIRE(after[kind].size() == before[kind].size());
        if (i < before[kind].size()) REQUIRE(after[kind][i]["name"] == new_name);
        REQUIRE(without_binds(after["lengths"]) == without_binds(before["lengths"]));
        REQUIRE(after["verdict"] == before["verdict"]);
        if (before.contains("pieces"))
          for (std::size_t p = 0; p < before["pieces"].size(); ++p) {
            REQUIRE(after["pieces"][p]["marks"].size() == before["pieces"][p]["marks"].size());
            REQUIRE(after["pieces"][p]["cut_across"] == before["pieces"][p]["cut_across"]);
          }
        ++renamed;
      }
  }
  REQUIRE(renamed > 100);
}
