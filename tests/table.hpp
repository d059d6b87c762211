// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/where.hpp"

#include <fstream>
#include <sstream>
#include <string>
#include <vector>

/// Tables of tests/data, as they are written.
namespace gatherwright::tests {

/// A line of CSV, cells in quotes included.
inline std::vector<std::string> cells(const std::string &line) {
  std::vector<std::string> found(1);
  bool quoted = false;
  for (const char c : line) {
    if (c == '"')
      quoted = !quoted;
    else if (c == ',' && !quoted)
      found.emplace_back();
    else if (c != '\r')
      found.back() += c;
  }
  return found;
}

/// "24 3/4", "58.5" or "3/8".
inline double mixed_number(const std::string &text) {
  std::istringstream words(text);
  double sum = 0;
  for (std::string word; words >> word;) {
    const std::size_t bar = word.find('/');
    sum += std::stod(word.substr(0, bar)) / (bar == std::string::npos ? 1 : std::stod(word.substr(bar + 1)));
  }
  return sum;
}

/// All rows of a file of tests/data but the first, which has the heads of the columns.
inline std::vector<std::vector<std::string>> table(const std::string &name) {
  std::ifstream file(test_data(name));
  std::vector<std::vector<std::string>> rows;
  std::string line;
  std::getline(file, line);
  while (std::getline(file, line))
    rows.push_back(cells(line));
  return rows;
}

} // namespace gatherwright::tests
