// SPDX-License-Identifier: GPL-3.0-or-later
// Every way to join a few rectangles two and two, without leaving any out: what is laid must be the shortest of them.

#include "solver/layout/checker.hpp"
#include "solver/layout/lay.hpp"
#include "tests/solver/layout/sets.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>
#include <set>
#include <utility>
#include <vector>

using namespace gatherwright::layout;

namespace {

using Size = std::pair<int, int>; ///< across, along

struct Piece {
  int across;
  int along;
  bool may_turn;
};

/// All sizes of boxes that all rectangles of a choice fill, no wider than the strip.
std::set<Size> boxes(const std::vector<Piece> &pieces, unsigned choice, int width, std::vector<std::set<Size>> &known) {
  std::set<Size> &found = known[choice];
  if (!found.empty()) return found;
  if ((choice & (choice - 1)) == 0) {
    for (std::size_t i = 0; i < pieces.size(); ++i)
      if (choice == 1u << i) {
        if (pieces[i].across <= width) found.insert({pieces[i].across, pieces[i].along});
        if (pieces[i].may_turn && pieces[i].along <= width) found.insert({pieces[i].along, pieces[i].across});
      }
    return found;
  }
  for (unsigned part = (choice - 1) & choice; part > 0; part = (part - 1) & choice) {
    if (part < (choice ^ part)) continue;
    for (const Size &a : boxes(pieces, part, width, known))
      for (const Size &b : boxes(pieces, choice ^ part, width, known)) {
        found.insert({std::max(a.first, b.first), a.second + b.second});
        if (a.first + b.first <= width) found.insert({a.first + b.first, std::max(a.second, b.second)});
      }
  }
  return found;
}

int shortest(const std::vector<Piece> &pieces, int width) {
  const unsigned all = (1u << pieces.size()) - 1;
  std::vector<std::set<Size>> known(all + 1);
  int least = 1 << 30;
  for (const Size &size : boxes(pieces, all, width, known))
    least = std::min(least, size.second);
  return least;
}

struct Made {
  Problem problem;
  int length = 0;
};

/// A few rectangles of invented sizes, some of them equal, some that may turn.
Made made(std::uint32_t seed, int least = 2, int most_pieces = 6) {
  std::mt19937 random(seed);
  const auto below = [&](int end) { return static_cast<int>(random() % static_cast<std::uint32_t>(end)); };
  const int width = 8 + below(20);
  const int most = 2 + below(8) * width / 8;
  const int size = least + below(most_pieces - least + 1);
  std::vector<Piece> pieces;
  Problem problem{static_cast<double>(width), {}};
  while (static_cast<int>(pieces.size()) < size) {
    const Piece piece{1 + below(std::min(width, most)), 1 + below(most), below(4) == 0};
    const int count = std::min(1 + below(4) / 3, size - static_cast<int>(pieces.size()));
    pieces.insert(pieces.end(), static_cast<std::size_t>(count), piece);
    problem.rectangles.push_back(
        {static_cast<double>(piece.across), static_cast<double>(piece.along), count, piece.may_turn});
  }
  return {problem, shortest(pieces, width)};
}

} // namespace

TEST_CASE("what is laid of up to six rectangles is as short as the shortest of all ways to lay them") {
  for (std::uint32_t seed = 1; seed <= 400; ++seed) {
    INFO("seed " << seed);
    const Made one = made(seed);
    const Layout layout = lay(one.problem);
    CHECK(layout.length == one.length);
    CHECK(layout.bound == one.length);
    CHECK(layout.shortest);
    CHECK(layout.certified <= one.length);
    CHECK_FALSE(check(one.problem, layout));
  }
}

TEST_CASE("what is laid of seven to nine rectangles is as short as the shortest of all ways to lay them") {
  for (std::uint32_t seed = 1; seed <= 60; ++seed) {
    INFO("seed " << seed);
    const Made one = made(seed, 7, 9);
    const Layout layout = lay(one.problem);
    CHECK(layout.length == one.length);
    CHECK(layout.shortest);
    CHECK_FALSE(check(one.problem, layout));
  }
}

TEST_CASE("rectangles fit a length just where the shortest layout does") {
  for (std::uint32_t seed = 401; seed <= 550; ++seed) {
    INFO("seed " << seed);
    const Made one = made(seed);
    const Fitting longer = fits(one.problem, one.length + 1.5);
    const Fitting exactly = fits(one.problem, one.length);
    REQUIRE(longer.answer == Fitting::Answer::fits);
    REQUIRE(exactly.answer == Fitting::Answer::fits);
    CHECK(longer.layout->length <= one.length + 1.5);
    CHECK(exactly.layout->length == one.length);
    CHECK_FALSE(check(one.problem, *exactly.layout));
    CHECK(fits(one.problem, one.length - 0.5).answer == Fitting::Answer::does_not);
    CHECK(fits(one.problem, 0).answer == Fitting::Answer::does_not);
  }
}

TEST_CASE("edge-to-edge cuts cannot take a pinwheel apart") {
  // Four rectangles around a square fill 3 x 3 without waste, but no straight cut runs through.
  const Problem pinwheel{3, {{2, 1, 2}, {1, 2, 2}, {1, 1, 1}}};
  CHECK(lay(pinwheel).length == 4);
  CHECK(lay(pinwheel).shortest);
}

TEST_CASE("a rectangle that may turn counts once, both ways that it may lie") {
  const Problem one{26, {{6, 9, 1, true}, {2, 7, 1, true}, {3, 10, 1}, {11, 10, 2}}};
  CHECK(lay(one).length ==
        shortest({{6, 9, true}, {2, 7, true}, {3, 10, false}, {11, 10, false}, {11, 10, false}}, 26));
}

TEST_CASE("small rectangles go where they shorten a layout, not where they happen to fit") {
  // 13 rectangles, of which a search that put what fits a gap into it at once took 132 for the shortest.
  const Problem problem{
      598, {{134, 91, 3, true}, {2, 101, 2, true}, {101, 61, 2}, {18, 10, 2}, {61, 46, 1}, {75, 41, 2}, {1, 1, 1}}};
  const Layout layout = lay(problem);
  CHECK(layout.length == 128);
  CHECK(layout.shortest);
}
