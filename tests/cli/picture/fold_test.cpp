// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/picture/fold.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <random>

using namespace gatherwright::paper;

namespace {

constexpr FoldRoom room{184, 200, 20};

/// Stretches follow one another from end to end, and each goes into a column of its page.
void check_whole(const Folded &folded, double width, double length, const FoldRoom &in) {
  double from = 0;
  CHECK(folded.scale > 0);
  CHECK(folded.scale <= 1);
  for (const std::vector<Stretch> &page : folded.pages) {
    CHECK(!page.empty());
    const double columns = static_cast<double>(page.size());
    if (width * folded.scale > 1) CHECK(columns * (width * folded.scale + in.beside) <= in.width * (1 + 1e-9));
    for (const Stretch &stretch : page) {
      CHECK(stretch.from == from);
      CHECK(stretch.to > stretch.from);
      CHECK((stretch.to - stretch.from) * folded.scale <= in.height * (1 + 1e-6));
      from = stretch.to;
    }
  }
  CHECK(from == length);
}

std::vector<Break> bands(double each, double length) {
  std::vector<Break> breaks;
  for (double at = each; at < length; at += each)
    breaks.push_back({at, 0});
  return breaks;
}

} // namespace

TEST_CASE("a short cloth stands on one page as wide as that is") {
  const Folded folded = gatherwright::paper::folded(1500, 1000, {}, room);
  REQUIRE(folded.pages.size() == 1);
  CHECK(folded.pages[0].size() == 1);
  CHECK(folded.scale == Approx(164.0 / 1500));
}

TEST_CASE("a long cloth is larger in columns, cut where no piece is divided") {
  const Folded folded = gatherwright::paper::folded(1500, 6000, bands(925, 6000), room);
  REQUIRE(folded.pages.size() == 1);
  CHECK(folded.pages[0].size() == 2);
  CHECK(folded.scale > 200.0 / 6000);
  for (std::size_t i = 0; i + 1 < folded.pages[0].size(); ++i)
    CHECK(std::fmod(folded.pages[0][i].to, 925) == Approx(0).margin(1e-6));
}

TEST_CASE("columns of one page are as even as divides the fewest pieces") {
  const Folded even = folded(1500, 6000, bands(500, 6000), room);
  REQUIRE(even.pages[0].size() == 2);
  CHECK(even.pages[0][0].to == Approx(3000));
  // Where the width alone says how large they are.
  const Folded short_of = folded(1500, 4500, bands(500, 4500), room);
  REQUIRE(short_of.pages[0].size() == 2);
  CHECK(short_of.pages[0][0].to == Approx(2500));
  // A piece lies over the middle.
  const Folded beside = folded(1500, 6000, {{2500, 0}, {3000, 3}, {3500, 0}}, room);
  REQUIRE(beside.pages[0].size() == 2);
  CHECK((beside.pages[0][0].to == Approx(2500) || beside.pages[0][0].to == Approx(3500)));
}

TEST_CASE("a bolt goes over pages on which its pieces can be read, and over no more than anyone turns") {
  const Folded bolt = folded(1500, 40'000, bands(925, 40'000), room);
  CHECK(bolt.pages.size() > 1);
  CHECK(bolt.scale * 1500 >= 45);
  const Folded endless = folded(1500, 5e6, bands(925, 5e6), room);
  CHECK(endless.pages.size() <= 30);
  check_whole(endless, 1500, 5e6, room);
}

TEST_CASE("cloths of any size are folded whole") {
  std::mt19937_64 random(3);
  std::uniform_real_distribution<double> power(-2, 7);
  for (int round = 0; round < 400; ++round) {
    const double width = std::pow(10, power(random));
    const double length = std::pow(10, power(random));
    std::vector<Break> breaks;
    for (int i = 0; i < 20; ++i)
      breaks.push_back({length * std::uniform_real_distribution<double>(0, 1)(random), random() % 4});
    std::sort(breaks.begin(), breaks.end(), [](const Break &a, const Break &b) { return a.at < b.at; });
    INFO(width << " x " << length);
    check_whole(folded(width, length, breaks, room), width, length, room);
    check_whole(folded(width, length, {}, {94, 60, 25}), width, length, {94, 60, 25});
  }
}
