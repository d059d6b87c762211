// SPDX-License-Identifier: GPL-3.0-or-later
// The table of folders in DEVELOPERS.md, held against every include.

#include "tests/where.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <string>

namespace {

/// The row of every folder and of every public header ("gatherwright/job.hpp"), from above.
std::map<std::string, int> rows() {
  std::map<std::string, int> rows;
  std::ifstream table(in_project("DEVELOPERS.md"));
  const std::regex row(R"(\| `((?:solver|cli)[a-z/]*)` \| ([^|]*)\|.*)"), name("[a-z]+");
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

} // namespace

TEST_CASE("a folder includes only folders above it in the table of DEVELOPERS.md") {
  const auto rows = ::rows();
  REQUIRE(rows.size() > 30);
  const std::filesystem::path root = in_project("");
  const std::regex include(R"re(#include "([^"]+)".*)re");
  int includes = 0;
  for (const char *top : {"solver", "cli"})
    for (const auto &entry : std::filesystem::recursive_directory_iterator(root / top)) {
      const std::string extension = entry.path().extension();
      if (extension != ".hpp" && extension != ".cpp") continue;
      const std::string file = entry.path().lexically_relative(root);
      const int row = row_of(file, rows);
      INFO(file);
      REQUIRE(row > 0);
      std::ifstream source(entry.path());
      for (std::string line; std::getline(source, line);) {
        std::smatch included;
        if (!std::regex_match(line, included, include)) continue;
        INFO(line);
        const int above = row_of(included[1], rows);
        CHECK(above > 0);
        CHECK(above <= row);
        ++includes;
      }
    }
  CHECK(includes > 500);
}
