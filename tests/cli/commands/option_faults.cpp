// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/commands/command_test.hpp"
#include "tests/cli/commands/shell.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace gatherwright::cli;
using command_test::run;

namespace {

struct Told {
  std::vector<std::string> arguments;
  std::string line; ///< the whole of the one fault
};

std::vector<std::string> join_with(std::vector<std::string> options) {
  options.insert(options.begin(), {"join", "52 cm", "22 cm"});
  return options;
}

std::vector<std::string> cast_with(std::vector<std::string> options) {
  options.insert(options.begin(), {"cast", in_project("docs/examples/porters-smock.json")});
  return options;
}

} // namespace

TEST_CASE("a command line is at fault at what was written, with what would be right") {
  const std::string chorus = in_project("docs/examples/porters-chorus.csv");
  const std::vector<Told> all{
      {{"knit", "x"}, "knit: there is no such command; write one of plan, join, cast, page, limits, start"},
      {{"plan", "x", "--zigzagged"}, "--zigzagged: there is no such option; gatherwright plan --help lists them"},
      {{"--zigzagged"}, "--zigzagged: there is no such option; gatherwright --help lists them"},
      {{"join", "52 cm", "-22"}, "BAND: \"-22\": a length cannot be negative; write 22"},
      {{"join", "52 cm", "22 cm", "--json=false"}, "--json: it takes no value; write --json alone"},
      {{"join", "52 cm", "22 cm", "-.5"}, "-.5: a length is not negative; leave the - out"},
      {{"limits", "linen"}, "linen: this is one too many; limits takes only options"},
      {{"limits", "--weight", "400..60 g/m2"},
       "--weight: the range ends before it begins; write the lighter weight first"},
      {{"limits", "--weight", "60 g/m2..12 oz"},
       "--weight: \"12 oz\": cloth is weighed by the square yard; write 12 oz/yd2"},
      {{"start", "waistcoat"},
       "NAME: there is no job called \"waistcoat\"; "
       "write one of cuff, collar, sleeve-head, frill, set-in-sleeve, smock, from-stock"},
      {join_with({"--parts", "4", "--apart", "5 cm"}),
       "--apart: the marks are already set by --parts; write one of them"},
      {join_with({"--parts", "four"}), "--parts: \"four\" is not a number; write a whole number such as 4"},
      {join_with({"--fade", "1,2,3"}), "--fade: it takes two lengths with a comma between them; write \"3 cm,2.5 cm\""},
      {join_with({"--swatch-stitch", "4 mm"}),
       "--swatch-stitch: there is no test strip that it could be the stitch of; write --swatch too"},
      {join_with({"--swatch", "30 cm"}),
       "--swatch: it takes two or four lengths with commas between them; "
       "write \"30 cm,3.4 cm,10 cm,16 cm\", or \"30 cm,,10 cm,16 cm\" without the second"},
      {join_with({"--threads", "3", "--count", "18 / cm"}),
       "--threads: it takes two numbers with a comma between them; write 3,4"},
      {join_with({"--strips", "a.pdf", "--sheet", "a.pdf"}),
       "--sheet: another output goes to the same file; write another name"},
      {join_with({"--sheet", "a.txt"}), "--sheet: its file ends in .html or .pdf; write --sheet sheet.html"},
      {join_with({"--fade", "12 cm,12 cm"}),
       "--fade: the fade takes 24 cm of a band of 22 cm; fade over no more than the segment's band"},
      {cast_with({chorus}), "--into: it is missing; name the folder for the plans, as in --into chorus"},
      {cast_with({"-", "--into", "out"}), "MEASURES: the list is read twice, and standard input can be read only "
                                          "once; write it to a file first"},
      {cast_with({"/dev/null", "--into", "out"}),
       "MEASURES: the list is read twice, and this can be read only once; write it to a file first"},
      {cast_with({chorus, "--into", chorus}), "--into: \"" + chorus + "\" is a file; name a folder, new or empty"},
      {cast_with({chorus, "--into", in_project("docs")}),
       "--into: \"" + in_project("docs") +
           "\" is not empty; name a folder that is new or empty; "
           "or write --resume, to go on with a cast that was broken off"},
      {cast_with({chorus, "--into", "out", "--threads", "257"}),
       "--threads: \"257\" is no number of threads; write a whole number from 1 to 256"},
      {cast_with({chorus, "--into", "out", "--strips", "--paper", "a3"}),
       "--paper: it is a4 or letter; write --paper a4"},
  };
  for (const Told &told : all) {
    CAPTURE(told.arguments);
    const Answer answer = run(told.arguments);
    CHECK(answer.status == Status::unusable);
    CHECK(answer.out.empty());
    CHECK(answer.err == told.line + "\n");
  }
  CHECK_FALSE(std::filesystem::exists("out"));
}

TEST_CASE("a PDF for which the font is missing is a fault of the machine that says what to install", "[machine]") {
  const command_test::Written no_fonts("<fontconfig/>");
  const auto ran = command_test::shell("FONTCONFIG_FILE=" + no_fonts.path() + " " + command_test::program() +
                                       " join '52 cm' '22 cm' --strips gatherwright-no-font.pdf 2>&1 >/dev/null");
  CHECK(ran.status == 3);
  CHECK(ran.said == "gatherwright: gatherwright-no-font.pdf cannot be made: the font DejaVu Sans is not installed; "
                    "install it (Debian: fonts-dejavu-core)\n");
  CHECK_FALSE(std::filesystem::exists("gatherwright-no-font.pdf"));
}
