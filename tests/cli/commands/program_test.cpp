// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/commands/command_test.hpp"

#include "where.hpp"

#include <catch2/catch.hpp>

#include <sys/wait.h>

#include <cstdio>

using command_test::holds;
using command_test::Written;

namespace {

struct Ran {
  int status = -1;
  std::string said;
};

/// The real program, by way of a shell that redirects as the test wants.
Ran shell(const std::string &command) {
  Ran ran;
  FILE *pipe = popen(command.c_str(), "r");
  REQUIRE(pipe != nullptr);
  char piece[4096];
  for (std::size_t got = 0; (got = fread(piece, 1, sizeof piece, pipe)) > 0;)
    ran.said.append(piece, got);
  const int ended = pclose(pipe);
  ran.status = WIFEXITED(ended) ? WEXITSTATUS(ended) : -1;
  return ran;
}

const std::string program = "'" + program_file() + "'";
const std::string example = " plan '" + in_project("docs/examples/porters-smock.json") + "'";

} // namespace

TEST_CASE("the program ends with the status of its answer") {
  CHECK(shell(program + example + " >/dev/null").status == 0);
  CHECK(shell(program + " join 152 22 >/dev/null").status == 1);
  CHECK(shell(program + " join 152 2> /dev/null").status == 2);
  CHECK(shell(program + " plan /nowhere 2>/dev/null").status == 3);
}

TEST_CASE("what is wrong goes to standard error and standard output stays empty") {
  CHECK(shell(program + " join 152 2>/dev/null").said.empty());
  CHECK(holds(shell(program + " join 152 2>&1 >/dev/null").said, "BAND: it is missing"));
}

TEST_CASE("a job can come from standard input") {
  const Ran ran = shell("printf '%s' '{ \"joins\": 3 }' | " + program + " plan - 2>&1");
  CHECK(ran.status == 2);
  CHECK(ran.said.starts_with("-:1: /joins: "));
  CHECK(shell(program + " start cuff | " + program + " plan - >/dev/null").status == 0);
}

TEST_CASE("an answer that cannot be written is a fault of the machine, told in one line") {
  for (const char *where : {" >/dev/full", " >&-"}) {
    const Ran ran = shell(program + example + " 2>&1" + where);
    const Ran said = shell("{ " + program + example + where + "; } 2>&1");
    CHECK(ran.status == 3);
    CHECK(said.status == 3);
    CHECK(said.said.starts_with("gatherwright: cannot write: "));
    CHECK(std::count(said.said.begin(), said.said.end(), '\n') == 1);
  }
}

TEST_CASE("there is no colour where there is no terminal") {
  CHECK_FALSE(holds(shell("env -u NO_COLOR " + program + example).said, "\x1b"));
}

TEST_CASE("another language of the machine changes nothing") {
  CHECK(shell("LC_ALL=de_DE.UTF-8 " + program + example + " --json").said ==
        shell("LC_ALL=C " + program + example + " --json").said);
}
