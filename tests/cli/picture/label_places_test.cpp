// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/picture/label_places.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <random>

using namespace gatherwright::paper;

TEST_CASE("labels with room stand where they want to") {
  const std::vector<double> at = spread_labels({{10, 100}, {20, 100}, {40, 100}}, 5, 0);
  CHECK(at == std::vector<double>{10, 20, 40});
}

TEST_CASE("labels of marks that lie together stand about their middle") {
  const std::vector<double> at = spread_labels({{48, 100}, {50, 100}, {52, 100}}, 5, 0);
  CHECK(at[0] == Approx(45));
  CHECK(at[1] == Approx(50));
  CHECK(at[2] == Approx(55));
}

TEST_CASE("labels keep apart, in order and within their ends, and no nudge of a group would be better") {
  std::mt19937_64 random(7);
  std::uniform_real_distribution<double> somewhere(0, 180);
  for (int round = 0; round < 300; ++round) {
    std::vector<LabelPlace> wanted(1 + random() % 30);
    for (LabelPlace &label : wanted)
      label = {somewhere(random), 1000};
    std::sort(wanted.begin(), wanted.end(), [](const auto &a, const auto &b) { return a.wanted < b.wanted; });
    constexpr double apart = 4;
    const std::vector<double> at = spread_labels(wanted, apart, -1000);
    REQUIRE(at.size() == wanted.size());
    // Each group of labels that touch is balanced, and none of its beginnings would rather go up without the rest.
    double pull = 0;
    for (std::size_t i = 0; i < at.size(); ++i) {
      if (i > 0) CHECK(at[i] - at[i - 1] > apart - 1e-9);
      pull += wanted[i].wanted - at[i];
      const bool group_ends = i + 1 == at.size() || at[i + 1] - at[i] > apart + 1e-9;
      if (group_ends) {
        CHECK(pull == Approx(0).margin(1e-9));
        pull = 0;
      } else {
        CHECK(pull > -1e-9);
      }
    }
    std::vector<LabelPlace> bounded = wanted;
    for (LabelPlace &label : bounded)
      label.highest = 170;
    const std::vector<double> within = spread_labels(bounded, apart, 2);
    CHECK(within.front() >= 2);
    CHECK(within.back() <= 170 + 1e-9);
  }
}

TEST_CASE("numbers stand as close as they have room, by round steps") {
  CHECK(number_step(10, 100, 5) == 1);
  CHECK(number_step(40, 100, 4.9) == 2);
  CHECK(number_step(40, 100, 5.1) == 5);
  CHECK(number_step(5000, 180, 8) == 500);
  CHECK(number_step(1, 0.001, 8) == 2);
}
