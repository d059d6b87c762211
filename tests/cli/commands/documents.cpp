// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/commands/command_test.hpp"
#include "tests/cli/commands/shell.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>
#include <string>
#include <vector>

// What the documents show is what happens.

using namespace command_test;
using namespace gatherwright::cli;
using gatherwright::tests::holds;

namespace {

/// The lines of a text that begin so.
std::vector<std::string> beginning(const std::string &text, const std::string &with) {
  std::vector<std::string> found;
  for (const std::string &line : lines_of(text))
    if (line.starts_with(with)) found.push_back(line);
  return found;
}

/// README.md and every page of docs.
std::vector<std::string> pages() {
  std::vector<std::string> paths{in_project("README.md")};
  for (const auto &entry : std::filesystem::directory_iterator(in_project("docs")))
    if (entry.path().extension() == ".md") paths.push_back(entry.path().string());
  std::sort(paths.begin() + 1, paths.end());
  return paths;
}

/// What stands in a page between ```LANGUAGE and ```.
std::vector<std::string> blocks(const std::string &page, const std::string &language) {
  const std::string opening = "```" + language + "\n";
  std::vector<std::string> found;
  for (std::size_t at = page.find(opening); at != std::string::npos; at = page.find(opening, at + 1)) {
    const std::size_t begin = at + opening.size();
    found.push_back(page.substr(begin, page.find("```", begin) - begin));
  }
  return found;
}

/// A command as shown after "$ ", gone on with after "> ", and all that it is shown to print.
struct Shown {
  std::string command;
  std::string output;
};

std::vector<Shown> shown_in(const std::string &page) {
  std::vector<Shown> shown;
  for (const std::string &block : blocks(page, "console"))
    for (const std::string &line : lines_of(block)) {
      if (line.starts_with("$ "))
        shown.push_back({line.substr(2), {}});
      else if (line.starts_with("> ") && !shown.empty() && shown.back().output.empty())
        shown.back().command += '\n' + line.substr(2);
      else if (!shown.empty())
        shown.back().output += line + '\n';
    }
  return shown;
}

/// A folder that is gone when the test is over, in which commands find the project's documents and the program by name.
class Bench {
public:
  Bench() : path_(std::filesystem::temp_directory_path() / ("gatherwright-documents-" + std::to_string(::getpid()))) {
    std::filesystem::remove_all(path_);
    std::filesystem::create_directory(path_);
    std::filesystem::create_directory_symlink(in_project("docs"), path_ / "docs");
  }
  ~Bench() { std::filesystem::remove_all(path_); }
  Bench(const Bench &) = delete;
  Bench &operator=(const Bench &) = delete;

  std::string output_of(const std::string &command) const {
    const std::string program_folder = std::filesystem::path(program_file()).parent_path().string();
    return shell("cd '" + path_.string() + "' && PATH='" + program_folder + "':\"$PATH\" && export PATH && { " +
                 command + "\n} 2>&1")
        .said;
  }

private:
  std::filesystem::path path_;
};

/// Every option that a text names, as --weight.
std::set<std::string> options_in(const std::string &text) {
  std::set<std::string> found;
  for (std::size_t at = text.find("--"); at != std::string::npos; at = text.find("--", at + 2)) {
    std::size_t end = at + 2;
    while (end < text.size() && ((text[end] >= 'a' && text[end] <= 'z') || (text[end] == '-' && end > at + 2)))
      ++end;
    const bool begins = at == 0 || text[at - 1] == '`' || text[at - 1] == ' ';
    if (begins && end > at + 2) found.insert(text.substr(at, end - at));
  }
  return found;
}

} // namespace

TEST_CASE("what runs on a fresh machine is what the README says, word for word", "[documents]") {
  const auto told = beginning(contents(in_project("README.md")), "apt-get update");
  const auto run_there = beginning(contents(in_project(".ci/run")), "apt-get update");
  REQUIRE(told.size() == 2);
  CHECK(told == run_there);
}

TEST_CASE("what README and the documents show of the program is what it prints", "[documents]") {
  std::size_t commands_shown = 0;
  for (const std::string &path : pages()) {
    const Bench bench; // the commands of a page follow each other in one folder
    for (const Shown &shown : shown_in(contents(path))) {
      INFO(path << ": " << shown.command);
      CHECK(bench.output_of(shown.command) == shown.output);
      ++commands_shown;
    }
  }
  CHECK(commands_shown >= 1);
}

TEST_CASE("the example of the library's page is the one that is compiled and run, with what it prints", "[documents]") {
  const std::string page = contents(in_project("docs/library.md"));
  const std::string source = contents(in_project("tests/install/consumer/main.cpp"));
  REQUIRE(source.starts_with("// SPDX"));
  CHECK(blocks(page, "cpp") == std::vector{source.substr(source.find('\n') + 1)});
  CHECK(blocks(page, "text") == std::vector{contents(in_project("tests/install/consumer/output.txt"))});
}

TEST_CASE("the page of the format names every option of every command, and no other", "[documents]") {
  const std::set<std::string> documented = options_in(contents(in_project("docs/format.md")));
  std::set<std::string> taken;
  for (const OptionForm &option : common_options())
    taken.emplace(option.name);
  for (const CommandForm &command : commands())
    for (const OptionForm &option : command.options)
      taken.emplace(option.name);
  CHECK(documented == taken);
}

TEST_CASE("every option is in the help of its command, and every command in the program's", "[documents]") {
  for (const CommandForm &command : commands()) {
    CHECK(holds(run({"--help"}).out, "  " + std::string(command.name) + " "));
    const std::string help = run({std::string(command.name), "--help"}).out;
    for (const OptionForm &option : command.options) {
      INFO(command.name << " " << option.name);
      CHECK(holds(help, "\n  " + std::string(option.name)));
    }
  }
}

TEST_CASE("every file of the documents that a page links to is there", "[documents]") {
  std::size_t links = 0;
  std::vector<std::string> all = pages();
  all.push_back(in_project("DEVELOPERS.md"));
  for (const std::string &path : all) {
    const std::string page = contents(path);
    for (std::size_t at = page.find("]("); at != std::string::npos; at = page.find("](", at + 1)) {
      const std::string target = page.substr(at + 2, page.find(')', at) - at - 2);
      const bool code = target.find(' ') != std::string::npos;
      if (code || target.find("://") != std::string::npos || target.starts_with("#")) continue;
      INFO(path << " links to " << target);
      CHECK(std::filesystem::exists(std::filesystem::path(path).parent_path() / target.substr(0, target.find('#'))));
      ++links;
    }
  }
  CHECK(links > 10);
}
