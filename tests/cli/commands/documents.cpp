// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/commands/command_test.hpp"

#include "where.hpp"

#include <catch2/catch.hpp>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

using namespace command_test;
using namespace gatherwright::cli;

namespace {

std::string contents(const std::string &path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// The lines of a text that begin so.
std::vector<std::string> beginning(const std::string &text, const std::string &with) {
  std::vector<std::string> found;
  for (const std::string &line : lines_of(text))
    if (line.starts_with(with)) found.push_back(line);
  return found;
}

} // namespace

TEST_CASE("what runs on a fresh machine is what the README says, word for word") {
  const auto told = beginning(contents(in_project("README.md")), "apt-get update");
  const auto run_there = beginning(contents(in_project(".ci/run")), "apt-get update");
  REQUIRE(told.size() == 2);
  CHECK(told == run_there);
}

TEST_CASE("what the README shows of a join is what it prints") {
  const std::string readme = contents(in_project("README.md"));
  const std::string command = "$ gatherwright join \"52 cm\" \"22 cm\" --weight \"165 g/m2\" --parts 4\n";
  const std::size_t at = readme.find(command);
  REQUIRE(at != std::string::npos);
  const std::size_t begin = at + command.size();
  const std::string shown = readme.substr(begin, readme.find("```", begin) - begin);
  CHECK(shown == run({"join", "52 cm", "22 cm", "--weight", "165 g/m2", "--parts", "4"}).out);
}

TEST_CASE("every option of every command is in the documents") {
  const std::string format = contents(in_project("docs/format.md"));
  for (const CommandForm &command : commands())
    for (const OptionForm &option : command.options) {
      INFO(command.name << " " << option.name);
      CHECK(format.find(std::string(option.name)) != std::string::npos);
    }
}
