// SPDX-License-Identifier: GPL-3.0-or-later
// The table of folders in DEVELOPERS.md, held against every include, and the tests of the solver held to be of it
// alone.

#include "tests/where.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

namespace {

/// The row of every folder and of every public header ("gatherwright/job.hpp"), from above.
std::map<std::string, int> rows() {
  std::map<std::string, int> rows;
  std::ifstream table(in_project("DEVELOPERS.md"));
  const std::regex row(R"(\| `((?:solver|cli)[a-z/]*)` \| ([^|]*)\|.*)"), name("[a-z_]+");
  int number = 0;
  for (std::string line; std::getline(table, line);) {
    std::smatch cells;
    if (!std::regex_match(line, cells, row)) continue;
    rows[cells[1]] = ++number;
    const std::string headers = cells[2];
    for (std::sregex_iterator header(headers.begin(), headers.end(), name), end; header != end; ++header)
      rows["gatherwright/" + header->str() + ".hpp"] = number;
  }
  return rows;
}

/// The row of a file or an include: of a public header its own, else of the nearest folder that has one; 0 where none.
int row_of(std::string path, const std::map<std::string, int> &rows) {
  if (const auto at = path.find("gatherwright/"); at != std::string::npos) path.erase(0, at);
  for (; !path.empty(); path.erase(path.rfind('/') == std::string::npos ? 0 : path.rfind('/')))
    if (const auto found = rows.find(path); found != rows.end()) return found->second;
  return 0;
}

/// What a file includes of the project, as it is written there.
std::vector<std::string> includes_of(const std::filesystem::path &file) {
  static const std::regex include(R"re(#include "([^"]+)".*)re");
  std::vector<std::string> found;
  std::ifstream source(file);
  for (std::string line; std::getline(source, line);)
    if (std::smatch included; std::regex_match(line, included, include)) found.push_back(included[1]);
  return found;
}

bool is_source(const std::filesystem::path &file) {
  return file.extension() == ".hpp" || file.extension() == ".cpp";
}

/// Everything that a file includes of the project, and what that includes in turn.
void gather_includes(const std::filesystem::path &root, const std::string &file, std::set<std::string> &found) {
  for (const std::string &included : includes_of(root / file))
    if (found.insert(included).second) gather_includes(root, included, found);
}

} // namespace

TEST_CASE("a folder includes only folders above it in the table of DEVELOPERS.md") {
  const auto rows = ::rows();
  REQUIRE(rows.size() > 30);
  const std::filesystem::path root = in_project("");
  int includes = 0;
  for (const char *top : {"solver", "cli"})
    for (const auto &entry : std::filesystem::recursive_directory_iterator(root / top)) {
      if (!is_source(entry.path())) continue;
      const std::string file = entry.path().lexically_relative(root);
      const int row = row_of(file, rows);
      INFO(file);
      REQUIRE(row > 0);
      for (const std::string &included : includes_of(entry.path())) {
        INFO(included);
        const int above = row_of(included, rows);
        CHECK(above > 0);
        CHECK(above <= row);
        ++includes;
      }
    }
  CHECK(includes > 500);
}

TEST_CASE("the program includes no header of the library but the public ones") {
  const std::filesystem::path root = in_project("");
  for (const auto &entry : std::filesystem::recursive_directory_iterator(root / "cli")) {
    if (!is_source(entry.path())) continue;
    INFO(entry.path().lexically_relative(root));
    for (const std::string &included : includes_of(entry.path())) {
      INFO(included);
      CHECK_FALSE(included.starts_with("solver/"));
    }
  }
}

TEST_CASE("the tests of the solver reach nothing of the command line") {
  const std::filesystem::path root = in_project("");
  int files = 0;
  for (const auto &entry : std::filesystem::recursive_directory_iterator(root / "tests/solver")) {
    if (!is_source(entry.path())) continue;
    const std::string file = entry.path().lexically_relative(root);
    INFO(file);
    std::set<std::string> reached;
    gather_includes(root, file, reached);
    for (const std::string &included : reached) {
      INFO(included);
      CHECK_FALSE(included.starts_with("cli/"));
      CHECK_FALSE(included.starts_with("tests/cli/"));
    }
    ++files;
  }
  CHECK(files > 50);
}
