// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/job/bodies.hpp"

#include "tests/where.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <fstream>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

using namespace gatherwright;

namespace {

/// Of women and men together, as the percentiles of the whole survey have them.
bodies::Surveyed surveyed(const std::string &measure) {
  std::ifstream file(test_data("ansur_percentiles.csv"));
  bodies::Surveyed found{1e9, 0};
  for (std::string line; std::getline(file, line);) {
    std::vector<std::string> cells;
    std::stringstream stream(line);
    for (std::string cell; std::getline(stream, cell, ',');)
      cells.push_back(cell);
    if (cells.at(0) != measure) continue;
    found.least = std::min(found.least, std::stod(cells.at(5)));
    found.greatest = std::max(found.greatest, std::stod(cells.at(13)));
  }
  return found;
}

} // namespace

TEST_CASE("what bodies have is the least and the greatest of the survey") {
  const std::pair<const char *, const char *> measures[] = {
      {"neck", "neckcircumference"},           {"neck_base", "neckcircumferencebase"},
      {"wrist", "wristcircumference"},         {"hand", "handcircumference"},
      {"head", "headcircumference"},           {"chest", "chestcircumference"},
      {"bust", "chestcircumference"},          {"waist", "waistcircumference"},
      {"hip", "buttockcircumference"},         {"hips", "buttockcircumference"},
      {"seat", "buttockcircumference"},        {"upper_arm", "bicepscircumferenceflexed"},
      {"biceps", "bicepscircumferenceflexed"}, {"forearm", "forearmcircumferenceflexed"},
      {"shoulder_length", "shoulderlength"},   {"back_waist", "waistbacklength"},
      {"waist_back", "waistbacklength"},       {"stature", "stature"}};
  for (const auto &[name, measure] : measures) {
    INFO(name);
    const auto found = bodies::called(name);
    REQUIRE(found);
    const bodies::Surveyed wanted = surveyed(measure);
    CHECK(found->least == wanted.least);
    CHECK(found->greatest == wanted.greatest);
  }
  CHECK_FALSE(bodies::called("window"));
  CHECK_FALSE(bodies::called(""));
}
