// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/commands/command_test.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

using namespace gatherwright::cli;
using command_test::lines_of;
using command_test::run;
using gatherwright::tests::holds;

namespace {

nlohmann::json plan_of(std::vector<std::string> arguments) {
  arguments.insert(arguments.begin(), "join");
  arguments.push_back("--json");
  const Answer answer = run(std::move(arguments));
  CAPTURE(answer.err);
  REQUIRE_FALSE(answer.out.empty());
  return nlohmann::json::parse(answer.out);
}

std::vector<std::string> faults_of(std::vector<std::string> arguments) {
  arguments.insert(arguments.begin(), "join");
  const Answer answer = run(std::move(arguments));
  CHECK(answer.status == Status::unusable);
  CHECK(answer.out.empty());
  return lines_of(answer.err);
}

} // namespace

TEST_CASE("a join without a file prints marks that can be used at once") {
  const Answer answer = run({"join", "52 cm", "22 cm", "--weight", "165 g/m2", "--parts", "4"});
  CHECK(answer.status == Status::within_limits);
  CHECK(answer.err.empty());
  CHECK(holds(answer.out, "   0  start   0            0      2.36      7.5      33       16\n"
                          "   1          5.5         13      2.36      7.5      33       16\n"
                          "   2         11           26\n"
                          "  Marks 3 to 4: the other half the same, from the other end.\n"));
  CHECK(holds(run({"join", "52 cm", "22 cm", "--weight", "165 g/m2", "--parts", "4", "--every-mark"}).out,
              "   2         11           26      2.36      7.5      33       16\n"
              "   3         16.5         39      2.36      7.5      33       16\n"
              "   4  end    22           52\n"));
}

TEST_CASE("every option of a join reaches its plan") {
  const auto plain = plan_of({"52 cm", "22 cm"});
  CHECK(plain["unit"] == "cm");
  CHECK(plain["joins"][0]["segments"].size() == 1);
  CHECK(plan_of({"52 cm", "22 cm", "--weight", "40 g/m2"})["joins"][0]["segments"][0]["limits"]["most"] == 4.0);
  CHECK(plan_of({"52 cm", "22 cm", "--thickness", "0.5 mm"})["joins"][0]["segments"][0]["limits"]["packed"]
            .get<double>() == Approx(2 * 4 / (3 * 0.5)));
  CHECK(plan_of({"52 cm", "22 cm", "--bending-length", "4 cm"})["joins"][0]["segments"][0]["limits"]["most"] <
        plain["joins"][0]["segments"][0]["limits"]["most"]);
  CHECK(plan_of({"52 cm", "22 cm", "--stitch", "5 mm"})["joins"][0]["gathering"]["stitch"] == 0.5);
  CHECK(plan_of({"52 cm", "22 cm", "--weight", "165 g/m2", "--use",
                 "curtain"})["joins"][0]["segments"][0]["limits"]["most"] == 3.0);
  CHECK(plan_of({"110 cm", "22 cm", "--weight", "120 g/m2", "--use", "skirt"})["verdict"] == "within limits");
  CHECK(plan_of({"110 cm", "22 cm", "--weight", "120 g/m2"})["verdict"] == "too full");
  CHECK(faults_of({"52 cm", "22 cm", "--use", "shirt"}) ==
        std::vector<std::string>{"--use: \"shirt\" is not known here; write \"skirt\""});
  CHECK(plan_of({"52 cm", "22 cm", "--rows", "3"})["joins"][0]["gathering"]["rows"] == 3);
  CHECK(plan_of({"52 cm", "22 cm", "--parts", "5"})["joins"][0]["pins"] == 6);
  CHECK(plan_of({"52 cm", "22 cm", "--apart", "5 cm"})["joins"][0]["pins"] == 6);
  CHECK(plan_of({"52 cm", "22 cm", "--every", "4 cm"})["joins"][0]["marks"][1]["band"]["exact"] == 4.0);
  CHECK(plan_of({"52 cm", "22 cm", "--closed"})["joins"][0]["pins"] == plain["joins"][0]["pins"].get<int>() - 1);
  CHECK(plan_of({"52 cm", "22 cm", "--fade", "3 cm,2 cm"})["joins"][0]["segments"][0]["slackest"] == 1.0);
  CHECK(plan_of({"52 cm", "22 cm", "--kind", "gauge"})["joins"][0]["segments"][0]["kind"] == "gauge");
  CHECK(plan_of({"52 cm", "22 cm", "--tape-step", "5 mm"})["tape_step"] == 0.5);
  CHECK(plan_of({"20", "9", "--unit", "in"})["unit"] == "in");
  CHECK(plan_of({"52 cm", "22 cm", "--profile"})["joins"][0].contains("profile"));
  CHECK_FALSE(plain["joins"][0].contains("profile"));
}

TEST_CASE("a stitch counted on the cloth's threads comes out as worked by hand") {
  // 3 threads taken up and 4 passed: a stitch every 3.5 threads, of which 18 go to a centimetre: 3.5 / 18 cm. 52 cm
  // hold 52 * 18 / 3.5 = 267.4 of them, so 268 stitches a row; a quarter of the edge 66.9.
  const auto plan = nlohmann::json::parse(
      run({"join", "52 cm", "22 cm", "--threads", "3,4", "--count", "18 / cm", "--parts", "4", "--json"}).out);
  const auto &gathering = plan["joins"][0]["gathering"];
  CHECK(gathering["stitch"].get<double>() == Approx(3.5 / 18).epsilon(1e-12));
  CHECK(gathering["stitches"] == 268);
  CHECK(plan["joins"][0]["marks"][0]["stitches_to_next"].get<double>() == Approx(13 * 18 / 3.5).epsilon(1e-12));
}

TEST_CASE("a test strip and cloth that shrinks reach the plan of a join") {
  const auto plan = nlohmann::json::parse(run({"join", "52 cm", "22 cm", "--weight", "165 g/m2", "--swatch",
                                               "30 cm, 3.4 cm, 10 cm, 16 cm", "--swatch-stitch", "5 mm", "--json"})
                                              .out);
  const auto &limits = plan["joins"][0]["segments"][0]["limits"];
  CHECK(limits["least"].get<double>() == Approx(30.0 / 16).epsilon(1e-12));
  CHECK(limits["ideal"].get<double>() == Approx(30 / std::sqrt(160.0)).epsilon(1e-12));
  CHECK(limits["most"].get<double>() == Approx(3).epsilon(1e-12));
  CHECK(limits["packed"].get<double>() == Approx(30 / 3.4 * 4 / 5).epsilon(1e-12)); // at the stitch of 4 mm
  const auto eased = nlohmann::json::parse(
      run({"join", "24 cm", "22 cm", "--weight", "165 g/m2", "--shrinks", "--kind", "ease", "--json"}).out);
  CHECK(eased["joins"][0]["segments"][0]["limits"]["most"].get<double>() == Approx(1.12).epsilon(1e-12));
}

TEST_CASE("what is wrong with a test strip or a count of threads names its option") {
  CHECK(run({"join", "52 cm", "22 cm", "--threads", "3,4"}).err.starts_with("--threads, --count: "));
  CHECK(run({"join", "52 cm", "22 cm", "--threads", "3"}).err.starts_with("--threads: it takes two numbers"));
  CHECK(run({"limits", "--swatch", "1 cm"}).err.starts_with("--swatch: it takes two or four lengths"));
  CHECK(run({"limits", "--swatch", "30 cm,40 cm"}).err.starts_with("--swatch: "));
  CHECK(run({"limits", "--swatch-stitch", "4 mm"}).err.starts_with("--swatch-stitch: there is no test strip"));
  CHECK(run({"join", "5", "3", "--stitch", "4 mm", "--threads", "3,4", "--count", "18 / cm"}).status ==
        Status::unusable);
}

TEST_CASE("stretches left plain stand before and after the gathered one") {
  const auto kinds = [](const nlohmann::json &plan) {
    std::vector<std::string> all;
    for (const auto &segment : plan["joins"][0]["segments"])
      all.push_back(segment["kind"]);
    return all;
  };
  const auto both = plan_of({"52 cm", "22 cm", "--flat", "3 cm,2"});
  CHECK(kinds(both) == std::vector<std::string>{"flat", "gather", "flat"});
  CHECK(both["joins"][0]["segments"][0]["band"].get<double>() == Approx(3).epsilon(1e-12));
  CHECK(both["joins"][0]["segments"][2]["band"].get<double>() == Approx(2).epsilon(1e-12));
  CHECK(kinds(plan_of({"52 cm", "22 cm", "--flat", "3 cm,0"})) == std::vector<std::string>{"flat", "gather"});
  CHECK(kinds(plan_of({"52 cm", "22 cm", "--flat", "0,2 cm"})) == std::vector<std::string>{"gather", "flat"});
  // One length is for both ends. 9 into 3 1/2 inches, as Archer, Needlecraft (1911) has it.
  const auto archer = plan_of({"9 in", "5 in", "--flat", "3/4 in"});
  CHECK(archer["joins"][0]["segments"][1]["band"].get<double>() == Approx(3.5).epsilon(1e-12));
  CHECK(archer["joins"][0]["segments"][1]["long"].get<double>() == Approx(7.5).epsilon(1e-12));
}

TEST_CASE("a join is printed in the unit of its long edge, in any other as asked") {
  CHECK(plan_of({"24 3/4 in", "10 in"})["unit"] == "in");
  CHECK(plan_of({"24 3/4\"", "10 ″"})["unit"] == "in");
  CHECK(plan_of({"24 3/4 in", "10 in", "--unit", "cm"})["unit"] == "cm");
  CHECK(plan_of({"24 3/4''", "9 1/2''"})["unit"] == "in");
  CHECK(plan_of({"5' 10\"", "2'"})["unit"] == "in");
  CHECK(plan_of({"5'", "2'"})["unit"] == "ft");
  CHECK(plan_of({"24 3/4 in", "26 cm"})["unit"] == "in");
  CHECK(plan_of({"620mm", "24"})["unit"] == "mm");
  CHECK(plan_of({"620mm", "240"})["joins"][0]["band"] == 240);
  CHECK(plan_of({"62", "9 in"})["unit"] == "cm");
  CHECK(plan_of({"7 nail", "3 nail"})["unit"] == "cm");
}

TEST_CASE("each fault of a join names its option, and all are told at once") {
  CHECK(
      faults_of({"52 cms", "0", "--weight", "165", "--parts", "two", "--tape-step", "-1 mm", "--unit", "cm"}).size() ==
      5);
  const auto one = [](std::vector<std::string> options, std::string_view named) {
    std::vector<std::string> arguments{"52 cm", "22 cm"};
    arguments.insert(arguments.end(), options.begin(), options.end());
    const auto lines = faults_of(arguments);
    CAPTURE(lines);
    REQUIRE(lines.size() == 1);
    CHECK(lines[0].starts_with(std::string(named) + ": "));
    CHECK(holds(lines[0], "; "));
  };
  one({"--weight", "165"}, "--weight");
  one({"--thickness", "thin"}, "--thickness");
  one({"--bending-length", "2,3 cm"}, "--bending-length");
  one({"--stitch", "0"}, "--stitch");
  one({"--rows", "0"}, "--rows");
  one({"--rows", "nan"}, "--rows");
  one({"--parts", "inf"}, "--parts");
  one({"--parts", "0"}, "--parts");
  one({"--parts", "2.5"}, "--parts");
  one({"--apart", "0 cm"}, "--apart");
  one({"--every", "often"}, "--every");
  one({"--every", "4 cm", "--parts", "2"}, "--every");
  one({"--fade", "1,2,3"}, "--fade");
  one({"--fade", "20 cm,20 cm"}, "--fade");
  one({"--flat", "x,2 cm"}, "--flat");
  one({"--unit", "inches"}, "--unit");
  one({"--tape-step", "0"}, "--tape-step");
  one({"--kind", "gahter"}, "--kind");
  const auto lengths = faults_of({"sleeve", "22 cm"});
  REQUIRE(lengths.size() == 1);
  CHECK(lengths[0].starts_with("LONG: "));
  CHECK(faults_of({"52 cm", "-22 cm"}).front().find("BAND") == 0);
}

TEST_CASE("long and band swapped is told as such") {
  const Answer answer = run({"join", "22 cm", "52 cm"});
  CHECK(answer.status == Status::not_within_limits);
  CHECK(holds(answer.out, "swapped"));
}

TEST_CASE("cartridge pleats are told by their folds, how deep and how far apart") {
  // 520 / 4 = 130 stitches, a fold to two of them; 220 / 65 = 3.38.
  const Answer answer = run({"join", "52 cm", "22 cm", "--kind", "gauge", "--weight", "165 g/m2"});
  std::string text = answer.out;
  std::replace(text.begin(), text.end(), '\n', ' ');
  for (std::size_t at; (at = text.find("  ")) != std::string::npos;)
    text.erase(at, 1);
  CHECK(holds(text, "; 65 folds 4 mm deep, one every 3.4 mm"));
}

TEST_CASE("allowances before the two edges are told apart where they differ") {
  const command_test::Written job(R"({ "joins": [ { "name": "n", "long": { "length": "60 cm", "ends": [1, 1] },
    "band": { "length": "30 cm", "ends": [2, 2] } } ] })");
  CHECK(holds(run({"plan", job.path()}).out,
              "Measuring from the cut end, add 2 cm on the band and 1 cm on the long edge."));
}
