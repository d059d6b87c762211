// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/columns.hpp"
#include "tests/cli/commands/command_test.hpp"

#include <catch2/catch.hpp>

using namespace gatherwright::cli;
using command_test::lines_of;
using command_test::run;
using gatherwright::tests::holds;

namespace {

/// What a command line that cannot be used says, one string a line.
std::vector<std::string> refused(std::vector<std::string> arguments) {
  const Answer answer = run(std::move(arguments));
  CHECK(answer.status == Status::unusable);
  CHECK(answer.out.empty());
  return lines_of(answer.err);
}

} // namespace

TEST_CASE("a command line that cannot be used says so, and what to write") {
  CHECK(refused({}).front() == "gatherwright: no command is given; gatherwright --help lists them");
  CHECK(refused({"pln", "smock.json"}) == std::vector<std::string>{"pln: there is no such command; write plan"});
  CHECK(refused({"plan"}) ==
        std::vector<std::string>{"JOB: it is missing; write it after plan, as in gatherwright plan smock.json"});
  CHECK(refused({"plan", "--jsn", "smock.json"}) ==
        std::vector<std::string>{"--jsn: there is no such option; write --json"});
  CHECK(refused({"join", "52 cm", "22 cm", "--weight"}) ==
        std::vector<std::string>{"--weight: its value is missing; write it after the option"});
  CHECK(refused({"join", "52", "22", "--unit", "cm", "--unit", "mm"}) ==
        std::vector<std::string>{"--unit: it is given twice; give it once"});
  CHECK(refused({"join", "52", "22", "--json=yes"}) ==
        std::vector<std::string>{"--json: it takes no value; write --json alone"});
  CHECK(refused({"plan", "x", "--color", "sometimes"}) ==
        std::vector<std::string>{"--color: it is auto, always or never; write --color auto"});
  CHECK(refused({"plan", "--stripes", "x.pdf", "smock.json"}) ==
        std::vector<std::string>{"--stripes: there is no such option; write --strips"});
}

TEST_CASE("all faults of a command line are told at once") {
  CHECK(refused({"join", "52", "22", "--wieght", "--json=no", "--unit", "cm", "--unit=mm", "--color=red", "--rows"}) ==
        std::vector<std::string>{
            "--wieght: there is no such option; write --weight", "--json: it takes no value; write --json alone",
            "--rows: its value is missing; write it after the option", "--unit: it is given twice; give it once",
            "--color: it is auto, always or never; write --color auto"});
  CHECK(refused({"plan", "--color", "red"}) ==
        std::vector<std::string>{"JOB: it is missing; write it after plan, as in gatherwright plan smock.json",
                                 "--color: it is auto, always or never; write --color auto"});
  CHECK(refused({"join", "52", "22", "--json", "--json"}) ==
        std::vector<std::string>{"--json: it is given twice; give it once"});
}

TEST_CASE("an option of a command that stands before it is told to stand behind it") {
  CHECK(refused({"--weight", "165 g/m2", "limits"}) ==
        std::vector<std::string>{"--weight: it stands before the command; write it after limits"});
  CHECK(run({"--color=never", "limits", "--weight", "165 g/m2"}).status == Status::within_limits);
}

TEST_CASE("help and version are told whatever else is wrong") {
  const std::string help = run({"join", "--help"}).out;
  for (const std::vector<std::string> &words : std::vector<std::vector<std::string>>{
           {"join", "-h"}, {"--help", "join"}, {"join", "--json=no", "-h", "--rows"}, {"join", "1", "2", "3", "-hx"}})
    CHECK(run(words).out == help);
  CHECK(run({"knit", "--version", "--rows"}).out == run({"--version"}).out);
}

TEST_CASE("a value taken for an argument is not blamed beside the option it was meant for") {
  CHECK(refused({"join", "--wieght", "165 g/m2", "52 cm", "22 cm"}) ==
        std::vector<std::string>{"--wieght: there is no such option; write --weight"});
}

TEST_CASE("what is one too many is told to stand in quotes") {
  const auto lines = refused({"join", "52", "cm", "22", "cm"});
  REQUIRE(lines.size() == 2);
  CHECK(lines[0].starts_with("22: this is one too many; join takes LONG BAND;"));
  CHECK(holds(lines[0], "quotes"));
}

TEST_CASE("a fault of the command line cannot move the terminal") {
  for (const std::string &line : refused({"plan", "--\x1b[2Jx"}))
    CHECK_FALSE(holds(line, "\x1b"));
  for (const std::string &line : refused({"start", "\x1b[2J\nx"}))
    CHECK_FALSE(holds(line, "\x1b"));
}

TEST_CASE("every command takes help, version and color") {
  CHECK(run({"--version"}).out == run({"limits", "--version"}).out);
  CHECK(run({"--version"}).out.starts_with("gatherwright "));
  for (const char *library : {"Eigen 3.", "nlohmann_json 3.", "fmt "})
    CHECK(holds(run({"--version"}).out, library));
  for (const CommandForm &command : commands()) {
    const Answer answer = run({std::string(command.name), "--help"});
    CHECK(answer.status == Status::within_limits);
    CHECK(answer.err.empty());
    for (const auto &forms : {command.arguments, command.options, common_options()})
      for (const OptionForm &form : forms)
        CHECK(holds(answer.out, form.name));
    CHECK(holds(run({"--help"}).out, command.summary));
  }
  CHECK(run({"--color", "never", "start"}).status == Status::within_limits);
  CHECK(run({"start", "--color", "never"}).status == Status::within_limits);
}

TEST_CASE("help is no wider than a terminal") {
  std::vector<std::string> texts{run({"--help"}).out};
  for (const CommandForm &command : commands())
    texts.push_back(run({std::string(command.name), "-h"}).out);
  for (const std::string &text : texts)
    for (const std::string &line : lines_of(text))
      CHECK(gatherwright::report::columns(line) <= 80);
}

TEST_CASE("colour comes on a terminal unless NO_COLOR says not, and always or never as asked") {
  const std::vector<std::string> join{"join", "52 cm", "22 cm"};
  const auto coloured = [&](std::vector<std::string> more, Surroundings surroundings) {
    std::vector<std::string> arguments = join;
    arguments.insert(arguments.end(), more.begin(), more.end());
    return holds(run(arguments, surroundings).out, "\x1b");
  };
  CHECK_FALSE(coloured({}, {}));
  CHECK(coloured({}, {.terminal = true}));
  CHECK_FALSE(coloured({}, {.terminal = true, .no_color = true}));
  CHECK(coloured({"--color", "always"}, {.no_color = true}));
  CHECK_FALSE(coloured({"--color", "never"}, {.terminal = true}));
  CHECK_FALSE(coloured({"--json"}, {.terminal = true}));
}
