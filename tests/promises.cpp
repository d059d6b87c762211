// SPDX-License-Identifier: GPL-3.0-or-later
// What the public headers promise by number, held against the names of the solver's tests.

#include "tests/where.hpp"

#include <catch2/catch.hpp>

#include <cctype>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <regex>
#include <set>
#include <string>
#include <vector>

namespace {

std::string contents(const std::filesystem::path &path) {
  std::ifstream file(path);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// A promise as a test is called: without its full stop, and beginning small.
std::string as_name(std::string sentence) {
  if (sentence.ends_with('.')) sentence.pop_back();
  sentence[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(sentence[0])));
  return sentence;
}

struct Promise {
  int number;
  std::string name;
};

/// The promises of a header: "///   3. A sentence that may go on in the next line, set in as far."
std::vector<Promise> promises_of(const std::filesystem::path &header) {
  const std::regex begins(R"(\s*///   +(\d+)\. (.*))"), goes_on(R"(\s*///      +(\S.*))");
  std::vector<Promise> found;
  std::ifstream file(header);
  bool open = false;
  for (std::string line; std::getline(file, line);) {
    std::smatch parts;
    if (std::regex_match(line, parts, begins))
      found.push_back({std::stoi(parts[1]), parts[2]});
    else if (open && std::regex_match(line, parts, goes_on))
      found.back().name += " " + parts[1].str();
    else
      continue;
    open = !found.back().name.ends_with('.');
  }
  for (Promise &promise : found)
    promise.name = as_name(promise.name);
  return found;
}

/// The names of the tests in these folders, their lines joined.
std::set<std::string> names_of_tests() {
  const std::regex named(R"re(TEST_CASE\(\s*"((?:[^"\\]|\\.|"\s*\n\s*")*)")re"), join(R"re("\s*\n\s*")re");
  std::set<std::string> names;
  for (const char *folder : {"tests/solver", "tests/whole"})
    for (const auto &entry : std::filesystem::recursive_directory_iterator(in_project(folder))) {
      if (entry.path().extension() != ".cpp") continue;
      const std::string text = contents(entry.path());
      for (std::sregex_iterator test(text.begin(), text.end(), named), end; test != end; ++test)
        names.insert(std::regex_replace((*test)[1].str(), join, ""));
    }
  return names;
}

} // namespace

TEST_CASE("what a public header promises by number has a test of that name") {
  const std::set<std::string> names = names_of_tests();
  CHECK(names.size() > 200);
  for (const auto &entry : std::filesystem::directory_iterator(in_project("solver/include/gatherwright"))) {
    INFO(entry.path().filename());
    const std::vector<Promise> promises = promises_of(entry.path());
    CHECK_FALSE(promises.empty());
    int number = 0;
    for (const Promise &promise : promises) {
      INFO(promise.name);
      CHECK(promise.number == ++number);
      CHECK(names.count(promise.name) == 1);
    }
  }
}
