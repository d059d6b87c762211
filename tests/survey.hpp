// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/where.hpp"

#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

/// Body measures: 2012 Anthropometric Survey of U.S. Army Personnel (ANSUR II), Natick/TR-15/007; 100 women and 100 men
/// of it.
namespace gatherwright::tests {

using Person = std::map<std::string, std::string>;

inline std::vector<Person> survey() {
  std::ifstream file(test_data("ansur_sample.csv"));
  const auto cells = [](const std::string &line) {
    std::vector<std::string> found;
    std::stringstream stream(line);
    for (std::string cell; std::getline(stream, cell, ',');)
      found.push_back(cell);
    return found;
  };
  std::string line;
  std::getline(file, line);
  const std::vector<std::string> header = cells(line);
  std::vector<Person> people;
  while (std::getline(file, line)) {
    const std::vector<std::string> values = cells(line);
    for (std::size_t i = 0; i < header.size() && i < values.size(); ++i) {
      if (i == 0) people.emplace_back();
      people.back()[header[i]] = values[i];
    }
  }
  return people;
}

/// In millimetres.
inline double number(const Person &person, const char *measure) {
  return std::stod(person.at(measure));
}

} // namespace gatherwright::tests
