// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/commands/command_test.hpp"

#include "tests/cli/commands/shell.hpp"

#include <catch2/catch.hpp>

using command_test::Ran;
using command_test::shell;
using gatherwright::tests::holds;

namespace {

const std::string program = command_test::program();
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

TEST_CASE("there is no colour where there is no terminal") {
  CHECK_FALSE(holds(shell("env -u NO_COLOR " + program + example).said, "\x1b"));
}

TEST_CASE("another language of the machine changes nothing") {
  CHECK(shell("LC_ALL=de_DE.UTF-8 " + program + example + " --json").said ==
        shell("LC_ALL=C " + program + example + " --json").said);
}
