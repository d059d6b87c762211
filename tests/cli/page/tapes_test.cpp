// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/tapes.hpp"
#include "tests/made_job.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <string>

using namespace gatherwright;
using nlohmann::ordered_json;

namespace {

struct Told {
  ordered_json tapes, rules;
};

Told told(std::string_view text) {
  const Job job = tests::job_of(text);
  const Plan plan = tests::plan_of(job);
  report::JsonText tapes;
  page::write_tapes(tapes, job, plan);
  report::JsonText rules;
  page::write_rules(rules, job, plan);
  return {ordered_json::parse(tapes.take()), ordered_json::parse(rules.take())};
}

std::string sleeve(const std::string &unit, const std::string &step, const std::string &lengths,
                   const std::string &rules = "[]") {
  return R"({ "unit": ")" + unit + R"(", "tape_step": ")" + step + R"(", "fabric": { "weight": "165 g/m2" },
    "measures": { "wrist": "18 cm" }, "lengths": )" +
         lengths + R"(, "rules": )" + rules + R"(,
    "joins": [ { "name": "sleeve into cuff", "long": "sleeve", "band": "24 cm" } ] })";
}

} // namespace

TEST_CASE("the tape of a length to be found runs over what is asked of it, and its pin is where it is asked for") {
  const auto tapes =
      told(sleeve("cm", "5 mm", R"({ "sleeve": { "from": "40.2 cm", "to": "59.9 cm", "aim": "wrist + 32 cm" } })"))
          .tapes;
  const auto &tape = tapes.at("sleeve");
  CHECK(tape.at("ends") == ordered_json({81, 119})); // 40.5 cm and 59.5 cm: the first and the last step within
  CHECK(tape.at("pin") == 100);
  CHECK(tape.at("is") == 100);
  CHECK(tape.at("reads").at("81") == "40.5");
  CHECK(tape.at("reads").at("119") == "59.5");
  CHECK(tape.at("says").get<std::string>().starts_with("anything from "));
}

TEST_CASE("the tape of a length of which no ends are asked runs from half to one and a half times what it is") {
  const auto tapes = told(sleeve("cm", "1 cm", R"({ "sleeve": "51 cm", "other": "0 cm" })")).tapes;
  CHECK(tapes.at("sleeve").at("ends") == ordered_json({25, 77})); // 25.5 and 76.5
  CHECK(tapes.at("sleeve").at("pin") == 51);
  CHECK(tapes.at("other").at("ends") == ordered_json({0, 1})); // a tape has a length, whatever it measures
}

TEST_CASE("a pin that is asked for beyond the ends of its tape is on it") {
  const auto tape = told(sleeve("cm", "1 cm", R"({ "sleeve": { "from": "45 cm", "to": "50 cm", "aim": "56 cm" } })"))
                        .tapes.at("sleeve");
  CHECK(tape.at("ends") == ordered_json({45, 56}));
  CHECK(tape.at("pin") == 56);
  CHECK(tape.at("is") == 50);
}

TEST_CASE("a room is told in whole steps that hold, each read off the tape") {
  // Between 1.18 and 2.70 of 24 cm, by the cloth's limits: 28.32 cm to 64.8 cm.
  const auto tape = told(sleeve("cm", "5 mm", R"({ "sleeve": "52 cm" })")).tapes.at("sleeve");
  CHECK(tape.at("room") == ordered_json({57, 129}));
  CHECK(tape.at("reads").at("57") == "28.5");
  CHECK(tape.at("reads").at("129") == "64.5");
  CHECK(tape.at("says") == "anything from 28.5 cm to 64.5 cm will do");
}

TEST_CASE("feet, yards and fractions are read off a slider's tape as off any other") {
  const auto feet = told(sleeve("ft", "1/2 in", R"({ "sleeve": "27 1/2 in" })")).tapes.at("sleeve");
  CHECK(feet.at("pin") == 55);
  CHECK(feet.at("ends") == ordered_json({27, 83}));
  CHECK(feet.at("reads").at("27") == "1 ft 1 1/2 in");
  CHECK(feet.at("reads").at("83") == "3 ft 5 1/2 in");
  const auto inches = told(sleeve("in", "1/4 in", R"({ "sleeve": "20 in" })")).tapes.at("sleeve");
  CHECK(inches.at("reads").at("40") == "10");
  CHECK(inches.at("reads").at(std::to_string(inches.at("room")[1].get<int>())).get<std::string>().find('.') ==
        std::string::npos);
  const auto yards = told(sleeve("yd", "1 in", R"({ "sleeve": "30 in" })")).tapes.at("sleeve");
  CHECK(yards.at("reads").at("45") == "1 yd 9 in");
}

TEST_CASE("both sides of a rule are told by its place, as the plan tells them") {
  const auto rules = told(sleeve("cm", "1 mm", R"({ "sleeve": "52 cm" })",
                                 R"([ "sleeve >= wrist + 30 cm", { "name": "short", "holds": "sleeve <= 50 cm" } ])"))
                         .rules;
  REQUIRE(rules.size() == 2);
  CHECK(rules[0] == ordered_json({{"rule", 0}, {"says", "52 cm, at least 48 cm wanted"}}));
  CHECK(rules[1] == ordered_json({{"rule", 1}, {"says", "52 cm, at most 50 cm wanted"}}));
}
