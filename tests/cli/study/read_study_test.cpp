// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/study/read_study.hpp"
#include "tests/cli/commands/command_test.hpp"
#include "tests/outcomes.hpp"
#include "tests/where.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <iterator>
#include <random>

// Every swatch here is invented.

using namespace gatherwright;
using namespace gatherwright::cli;
using namespace gatherwright::cli::study;
using command_test::lines_of;
using command_test::run;
using command_test::Written;
using gatherwright::tests::holds;

namespace {

const std::string columns = "cloth,wide [cm],long [cm],grams,ten layers [mm],overhang [cm],cut [cm],tight [cm],"
                            "shortest 1 [cm],best 1 [cm],longest 1 [cm],shortest 2 [cm],best 2 [cm],longest 2 [cm]\n";

std::vector<std::string> faults_of(const std::string &text) {
  const auto read = read_study("study.csv", text);
  const auto *faults = tests::fault_in(read);
  return faults == nullptr ? std::vector<std::string>{} : *faults;
}

ReadStudy studied(const std::string &text) {
  auto read = read_study("study.csv", text);
  if (const auto *faults = tests::fault_in(read)) FAIL(faults->front());
  return *std::move(read);
}

std::string contents(const std::string &path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::string example() {
  return contents(in_project("docs/examples/invented-swatches.csv"));
}

} // namespace

TEST_CASE("a row of a study is a cloth with its weight, thickness and stiffness and what each person judged") {
  const ReadStudy read = studied(columns + "lawn,50,100,40,1.6,4,30,2,8,12,24,7.5,,25\n");
  REQUIRE(read.cloths.size() == 1);
  const cloth::StudiedCloth &lawn = read.cloths[0];
  CHECK(lawn.fabric.name == "lawn");
  CHECK(lawn.fabric.weight->grams == Approx(80).epsilon(1e-14));
  CHECK(lawn.fabric.thickness->mm == Approx(0.16).epsilon(1e-14));
  CHECK(lawn.fabric.bending_length->mm == Approx(20).epsilon(1e-14));
  CHECK(*lawn.tight == Approx(15).epsilon(1e-14));
  CHECK(lawn.most == std::vector{300 / 80.0, 300 / 75.0});
  CHECK(lawn.ideal == std::vector{300 / 120.0});
  CHECK(lawn.least == std::vector{300 / 240.0, 300 / 250.0});
}

TEST_CASE("a study may have its columns in any order, in inches, and only those that were measured") {
  const ReadStudy read = studied("cut [in],grams,cloth,long [in],wide [in],best 1 [in],tight\n"
                                 "12,33.9057, drill ,36,36,6, 1 1/2 in\n");
  CHECK(read.cloths[0].fabric.name == "drill");
  CHECK(read.cloths[0].fabric.weight->grams == Approx(40.5510));
  CHECK(read.cloths[0].ideal == std::vector{2.0});
  CHECK(*read.cloths[0].tight == 8.0);
  CHECK(read.cloths[0].most.empty());
  CHECK_FALSE(read.cloths[0].fabric.thickness);
}

TEST_CASE("rows without figures are left aside") {
  const ReadStudy read = studied(columns + "lawn,50,100,40,,,,,,,,,,\nvoile,,,,,,,,,,,,,\n,,,,,,,,,,,,,\n\ndrill\n");
  CHECK(read.cloths.size() == 1);
  CHECK(read.still_empty == 2);
}

TEST_CASE("the list to fill has every column and no figures, and the example fills it") {
  const std::string to_fill = contents(in_project("docs/swatch-study.csv"));
  CHECK(lines_of(to_fill).size() == 13);
  CHECK(faults_of(to_fill) ==
        std::vector<std::string>{"study.csv:13: row 13: no cloth has any figures yet; fill a row: "
                                 "docs/swatch-study.md says how"});
  CHECK(lines_of(example())[0] == lines_of(to_fill)[0]);
  CHECK(studied(example()).cloths.size() == 12);
}

TEST_CASE("a study is at fault where it is wrong, with what would be right") {
  const std::string at = "study.csv:2: row 2";
  struct Told {
    std::string row;
    std::string line;
  };
  const std::vector<Told> all{
      {",50,100,40,,,,,,,,,,", ", column cloth: the cloth has no name; write one, to know it by"},
      {"lawn,50,,40,,,,,,,,,,",
       ", column long [cm]: it is empty; every cloth is weighed: write its width, its length and what it weighs"},
      {"lawn,50,100,light,,,,,,,,,,",
       ", column grams: \"light\" is no number of grams; write what the scale shows, such as 82.5"},
      {"lawn,50,100,0,,,,,,,,,,",
       ", column grams: \"0\" is no number of grams; write what the scale shows, such as 82.5"},
      {"lawn,50,100,4,,,,,,,,,,",
       ", column grams: with this the cloth weighs 8 g/m2, which none does; see that the three "
       "figures are of one piece, and their units"},
      {"lawn,50,100,40,0.16,,,,,,,,,",
       ", column ten layers [mm]: with this the cloth has 5000 kg to the cubic metre, which "
       "none has; write the height of ten layers, and see its unit"},
      {"lawn,50,100,40,,40 mm,30,,,,,,,", ""},
      {"lawn,50,100,40,,40 m,30,,,,,,,",
       ", column overhang [cm]: no cloth overhangs so; write how far the strip lies beyond the edge, and see its unit"},
      {"lawn,50,100,40,,,,,8,,,,,",
       ", column cut [cm]: it is empty; write how long the strip was before it was gathered"},
      {"lawn,50,100,40,,,30,9,8,12,24,,,",
       ", column tight [cm]: it is longer than \"shortest 1\"; a strip's lengths rise "
       "from tight over shortest, best and longest to cut"},
      {"lawn,50,100,40,,,30,2,8,7,24,,,",
       ", column shortest 1 [cm]: it is longer than \"best 1\"; a strip's lengths rise "
       "from tight over shortest, best and longest to cut"},
      {"lawn,50,100,40,,,30,2,,,,20,,10",
       ", column shortest 2 [cm]: it is longer than \"longest 2\"; a strip's lengths "
       "rise from tight over shortest, best and longest to cut"},
      {"lawn,50,100,40,,,30,31,,,,,,",
       ", column tight [cm]: it is longer than \"cut\"; a strip's lengths rise from tight "
       "over shortest, best and longest to cut"},
      {"lawn,50,100,40,,,30,2,8,12,29.5,,,",
       ", column longest 1 [cm]: it is hardly shorter than the strip as it was cut; "
       "write the length at which it still reads as gathers, or leave it empty"},
      {"lawn,50,100,40,,,30,x,8,12,24,,,",
       ", column tight [cm]: \"x\" is no quantity; write a number and its unit, such "
       "as 62 cm or 24 3/4 in"},
      {"lawn,50,100,40,,,30,2,8,12,24,,,,7",
       ", column 15: the header has no such column; give every row as many cells"},
  };
  for (const Told &told : all) {
    CAPTURE(told.row);
    const std::vector<std::string> faults = faults_of(columns + told.row + "\n");
    if (told.line.empty())
      CHECK(faults.empty());
    else
      CHECK(faults == std::vector{at + told.line});
  }
  CHECK(
      faults_of(columns + "lawn,50,100,40\nlawn,50,100,40\n") ==
      std::vector<std::string>{"study.csv:3: row 3, column cloth: the cloth \"lawn\" stands in line 2 too; give each a "
                               "name of its own"});
}

TEST_CASE("a study's header is at fault where it is wrong") {
  CHECK(faults_of("") ==
        std::vector<std::string>{"study.csv:1: row 1: the list is empty; begin with docs/swatch-study.csv"});
  CHECK(faults_of("cloth|wide\n") ==
        std::vector<std::string>{
            "study.csv:1: row 1, column 1: there is one column alone; part them by commas, semicolons or tabs"});
  CHECK(faults_of("PK\x03\x04 and more") ==
        std::vector<std::string>{"study.csv:1: row 1: this is a spreadsheet's own file and no text; save the list from "
                                 "the spreadsheet as CSV in UTF-8"});
  CHECK(faults_of("cloth,wide,long,gram,cut [ells],cut,best 4,tight,tight\n") ==
        std::vector<std::string>{
            "study.csv:1: row 1, column gram: there is no column \"gram\" in a study; write grams",
            "study.csv:1: row 1, column cut [ells]: \"ells\" is no unit; write one of mm, cm, m, in, ft, yd",
            "study.csv:1: row 1, column cut: the column \"cut\" is there twice; leave one of them out",
            "study.csv:1: row 1, column best 4: there is no column \"best 4\" in a study; write best 1",
            "study.csv:1: row 1, column tight: the column \"tight\" is there twice; leave one of them out",
            "study.csv:1: row 1: there is no column \"grams\"; add it: docs/swatch-study.csv has them all"});
}

TEST_CASE("all faults of a study are told at once, and no more than twenty") {
  std::string list = columns;
  for (int i = 0; i < 15; ++i)
    list += "cloth " + std::to_string(i) + ",wide,100,heavy,,,,,,,,,,\n";
  CHECK(faults_of(list).size() == 20);
  CHECK(lines_of(run({"limits", "--study", Written(list).path()}).err).size() == 20);
}

TEST_CASE("a study of very many cloths or very many bytes is refused") {
  std::string list = columns;
  for (int i = 0; i <= 1000; ++i)
    list += "cloth " + std::to_string(i) + ",50,100,40,,,,,,,,,,\n";
  CHECK(faults_of(list) ==
        std::vector<std::string>{"study.csv:1002: row 1002: there are more than 1000 cloths; leave some out"});
  CHECK(faults_of(columns + std::string(10'000'000, '\n')).size() == 1);
}

TEST_CASE("a study changed at any byte is read or refused in plain lines", "[broken]") {
  const std::string whole = lines_of(example())[0] + "\n" + lines_of(example())[1] + "\n";
  std::mt19937_64 random(3);
  for (std::size_t at = 0; at < whole.size(); ++at)
    for (int tries = 0; tries < 4; ++tries) {
      std::string broken = whole;
      if (tries == 0)
        broken.erase(at, 1);
      else
        broken[at] = tries == 1 ? ',' : static_cast<char>(random() % 256);
      for (const std::string &fault : faults_of(broken)) {
        REQUIRE(fault.starts_with("study.csv:"));
        REQUIRE(fault.find('\n') == std::string::npos);
        REQUIRE(fault.find("; ") != std::string::npos);
      }
    }
}

TEST_CASE("a study prints what it would change in the table, as text and as JSON alike") {
  const std::string file = in_project("docs/examples/invented-swatches.csv");
  const Answer text = run({"limits", "--study", file});
  CHECK(text.status == Status::within_limits);
  CHECK(holds(text.out, "A study of 12 cloths, beside the table over weights\n"));
  for (const std::string &line : lines_of(text.out))
    CHECK(line.size() <= 80);
  const auto told = nlohmann::json::parse(run({"limits", "--study", file, "--json"}).out);
  CHECK(told["format"] == "gatherwright study 1");
  CHECK(told["cloths"] == 12);
  const cloth::StudyFit fit = cloth::fit(studied(example()).cloths);
  for (std::size_t row = 0; row < cloth::weight_rows; ++row) {
    CHECK(told["most"]["rows"][row]["fitted"] == fit.most.rows[row].fitted);
    CHECK(told["least"]["rows"][row]["spread"] == fit.least.rows[row].spread);
    CHECK(told["near"][row] == fit.near[row]);
    const bool marked = told["most"]["rows"][row]["would_change"];
    CHECK(holds(text.out, "most at " + std::to_string(std::lround(cloth::row_grams[row])) + " g/m2") == marked);
  }
}

TEST_CASE("a study is of its own cloths, and says so of options of a cloth") {
  const std::string file = in_project("docs/examples/invented-swatches.csv");
  CHECK(run({"limits", "--study", file, "--weight", "1 g/m2", "--use", "skirt"}).err ==
        "--weight: a study has cloths of its own; leave it out beside --study\n"
        "--use: a study has cloths of its own; leave it out beside --study\n");
  const Answer missing = run({"limits", "--study", "no such file.csv"});
  CHECK(missing.status == Status::machine);
  CHECK(missing.err == "gatherwright: no such file.csv cannot be read: No such file or directory\n");
}
