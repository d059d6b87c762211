// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"
#include "tests/table.hpp"

#include <optional>
#include <string>
#include <vector>

/// Published figures: tests/data/published.csv.
namespace gatherwright::tests {

struct PublishedRow {
  std::string kind;
  std::string what;
  std::optional<std::array<double, 2>>
      grams; ///< mass per area, from and to: given, or assumed by us for a cloth by name
  std::optional<std::array<double, 2>> figure;
  std::string unit;
  std::optional<Use> use;
  std::string source;
  std::string read;
};

inline std::vector<PublishedRow> published(const std::string &kind = {}) {
  std::vector<PublishedRow> rows;
  for (const std::vector<std::string> &of : table("published.csv")) {
    if (of.size() != 9 || (!kind.empty() && of[0] != kind)) continue;
    PublishedRow row{of[0], of[1], {}, {}, of[5], {}, of[7], of[8]};
    if (!of[2].empty()) {
      const std::size_t dash = of[2].find('-');
      row.grams = {std::stod(of[2]), std::stod(dash == std::string::npos ? of[2] : of[2].substr(dash + 1))};
    }
    if (!of[3].empty()) row.figure = {std::stod(of[3]), std::stod(of[4])};
    if (of[6] == "skirt") row.use = Use::skirt;
    if (of[6] == "curtain") row.use = Use::curtain;
    rows.push_back(row);
  }
  return rows;
}

} // namespace gatherwright::tests
