// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/commands/command_test.hpp"
#include "tests/cli/commands/shell.hpp"
#include "tests/where.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <unistd.h>
#include <vector>

// Whatever the machine cannot do ends with status 3 and one line on standard error.

using command_test::lines_of;
using command_test::Ran;
using command_test::shell;
using command_test::Written;

namespace {

const std::string program = command_test::program();
const std::string example = " plan '" + in_project("docs/examples/porters-smock.json") + "'";

/// Something to write, of every command.
std::vector<std::string> commands_that_write() {
  std::vector<std::string> lines{" --help", " --version", example, example + " --json --profile"};
  for (const gatherwright::cli::CommandForm &command : gatherwright::cli::commands())
    lines.push_back(" " + std::string(command.name) + " --help");
  for (const char *line : {" join 52 22", " limits", " limits --json --weight 60..400", " start", " start smock"})
    lines.emplace_back(line);
  return lines;
}

/// A job whose plan takes some megabytes; of no use to a sanitized program.
[[maybe_unused]] std::string large_job() {
  std::string joins;
  for (int i = 0; i < 60; ++i)
    joins += (i ? ", " : "") + ("{ \"name\": \"frill " + std::to_string(i)) +
             "\", \"long\": \"2 m\", \"band\": \"90 cm\", \"marks\": { \"parts\": 200 } }";
  return "{ \"fabric\": { \"weight\": \"165 g/m2\" }, \"joins\": [" + joins + "] }";
}

[[maybe_unused]] std::string contents(const std::string &path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

} // namespace

TEST_CASE("an answer that cannot be written is a fault of the machine, told in one line", "[machine]") {
  for (const std::string &command : commands_that_write())
    for (const char *where : {" >/dev/full", " >&-"}) {
      INFO(command << where);
      const Ran ran = shell("{ " + program + command + where + "; } 2>&1");
      CHECK(ran.status == 3);
      CHECK(ran.said.starts_with("gatherwright: cannot write: "));
      CHECK(lines_of(ran.said).size() == 1);
    }
}

TEST_CASE("a reader that goes away is a fault of the machine, told in one line", "[machine]") {
  // The reader has gone before the first byte comes.
  const Ran ran = shell("{ { sleep 0.3; " + program + example + "; echo \"status $?\" >&2; } | true; } 2>&1");
  const auto lines = lines_of(ran.said);
  REQUIRE(lines.size() == 2);
  CHECK(lines[0].starts_with("gatherwright: cannot write: "));
  CHECK(lines[1] == "status 3");
}

TEST_CASE("a fault of the machine that cannot be told either still ends with its status", "[machine]") {
  CHECK(shell(program + example + " >/dev/full 2>/dev/full").status == 3);
  CHECK(shell(program + example + " >&- 2>&-").status == 3);
  CHECK(shell(program + example + " <&- >&- 2>&-").status == 3);
}

TEST_CASE("what cannot be read is a fault of the machine, told in one line", "[machine]") {
  for (const char *job : {" plan /nowhere", " plan /", " plan - <&-", " plan ''"}) {
    INFO(job);
    const Ran ran = shell(program + job + " 2>&1");
    CHECK(ran.status == 3);
    CHECK(lines_of(ran.said).size() == 1);
    CHECK(gatherwright::tests::holds(ran.said, "cannot be read: "));
  }
}

TEST_CASE("an input without end is refused", "[machine]") {
  const Ran ran = shell(program + " plan - </dev/zero 2>&1");
  CHECK(ran.status == 2);
  CHECK(lines_of(ran.said).size() == 1);
}

#ifndef __SANITIZE_ADDRESS__ // which takes terabytes of addresses for itself

TEST_CASE("too little memory is a fault of the machine, told in one line, however little there is", "[machine]") {
  constexpr int not_loaded = 127; // the loader has not got the program itself into memory
  const Written job(large_job());
  const std::string planning = program + " plan " + job.path() + " --json";
  const std::string whole = shell(planning).said;
  REQUIRE(whole.size() > 1'000'000);
  const auto within = [&](int kilobytes) {
    return shell("ulimit -v " + std::to_string(kilobytes) + "; exec " + planning + " 2>&1");
  };

  // With less than its file takes not even the system could begin the program.
  int bound = static_cast<int>(std::filesystem::file_size(program_file()) / 1024);
  while (within(bound).status == not_loaded)
    bound += 16;
  int refused = 0;
  // In small steps at first, where not even the program's own beginnings have memory; then to where all goes well.
  for (;; bound += refused < 60 ? 8 : 400) {
    const Ran ran = within(bound);
    INFO(bound << " kB: status " << ran.status << ", " << ran.said.substr(0, 200));
    if (ran.status == not_loaded) continue;
    if (ran.status == 0) {
      CHECK(ran.said == whole);
      break;
    }
    REQUIRE(ran.status == 3);
    REQUIRE(ran.said == "gatherwright: out of memory\n");
    ++refused;
  }
  CHECK(refused > 70);
}

TEST_CASE("too little memory for a PDF is a fault of the machine, told in one line, and leaves nothing", "[machine]") {
  const std::string pdf =
      (std::filesystem::temp_directory_path() / ("bounded-" + std::to_string(getpid()) + ".pdf")).string();
  const std::string planning = program + example + " --sheet '" + pdf + "'";
  const std::string whole = shell(planning).said;
  const std::string printed = contents(pdf);
  REQUIRE(printed.starts_with("%PDF"));
  std::filesystem::remove(pdf);
  int refused = 0;
  for (int bound = 16'000;; bound += 3000) {
    const Ran ran = shell("ulimit -v " + std::to_string(bound) + "; exec " + planning + " 2>&1");
    INFO(bound << " kB: status " << ran.status << ", " << ran.said.substr(0, 200));
    if (ran.status == 0) {
      CHECK(ran.said == whole);
      CHECK((contents(pdf) == printed));
      break;
    }
    REQUIRE(ran.status == 3);
    REQUIRE(lines_of(ran.said).size() == 1);
    REQUIRE_FALSE(std::filesystem::exists(pdf));
    ++refused;
  }
  CHECK(refused > 10);
  std::filesystem::remove(pdf);
}

#endif
