// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/layout/checker.hpp"
#include "solver/layout/lay.hpp"
#include "tests/solver/layout/sets.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

using namespace gatherwright::layout;

namespace {

bool same(const Layout &a, const Layout &b) {
  const auto equal_place = [](const Placement &x, const Placement &y) {
    return x.rectangle == y.rectangle && x.copy == y.copy && x.across == y.across && x.along == y.along &&
           x.turned == y.turned;
  };
  const auto equal_cut = [](const Cut &x, const Cut &y) {
    return x.run == y.run && x.at == y.at && x.from == y.from && x.to == y.to;
  };
  return a.length == b.length && a.bound == b.bound && a.shortest == b.shortest && a.certified == b.certified &&
         std::equal(a.placements.begin(), a.placements.end(), b.placements.begin(), b.placements.end(), equal_place) &&
         std::equal(a.cuts.begin(), a.cuts.end(), b.cuts.begin(), b.cuts.end(), equal_cut);
}

} // namespace

TEST_CASE("up to sixteen pieces of garments are laid as short as can be, and proved to be") {
  for (int pieces = 2; pieces <= 16; ++pieces)
    for (std::uint32_t seed = 1; seed <= 6; ++seed) {
      INFO(pieces << " pieces, seed " << seed);
      const Problem problem = layout_sets::garment_pieces(seed, pieces);
      const Layout layout = lay(problem);
      CHECK(layout.shortest);
      CHECK_FALSE(check(problem, layout));
    }
}

TEST_CASE("up to twelve pieces that may all turn are laid as short as can be, and proved to be") {
  for (int pieces = 4; pieces <= 12; pieces += 2)
    for (std::uint32_t seed = 1; seed <= 4; ++seed) {
      INFO(pieces << " pieces, seed " << seed);
      Problem problem = layout_sets::garment_pieces(seed, pieces);
      const double unturned = lay(problem).length;
      for (Rectangle &rectangle : problem.rectangles)
        rectangle.may_turn = true;
      const Layout layout = lay(problem);
      CHECK(layout.shortest);
      CHECK(layout.length <= unturned);
    }
}

TEST_CASE("twenty pieces of garments are laid as short as can be, and proved to be") {
  for (std::uint32_t seed = 1; seed <= 12; ++seed) {
    INFO("seed " << seed);
    CHECK(lay(layout_sets::garment_pieces(seed, 20)).shortest);
  }
}

TEST_CASE("a cast of eight hundred pieces is laid within two in a hundred of the bound") {
  for (std::uint32_t seed = 1; seed <= 3; ++seed) {
    INFO("seed " << seed);
    Problem problem = layout_sets::cast(seed, 800);
    const Layout layout = lay(problem);
    CHECK(layout.length <= 1.02 * layout.certified);
    for (Rectangle &rectangle : problem.rectangles)
      rectangle.may_turn = true;
    const Layout turned = lay(problem);
    CHECK(turned.length <= 1.02 * turned.certified);
  }
}

TEST_CASE("six garments on one cloth are laid close to the bound") {
  double sum = 0;
  int sets = 0;
  for (int wearers = 1; wearers <= 4; ++wearers)
    for (std::uint32_t seed = 1; seed <= 2; ++seed, ++sets) {
      const Layout layout = lay(layout_sets::six_garments(seed, wearers));
      CHECK(layout.bound <= layout.length);
      sum += layout.length / layout.bound;
    }
  CHECK(sum / sets <= 1.015);
}

TEST_CASE("the order of rectangles and how copies are written make no difference to the length") {
  for (std::uint32_t seed = 1; seed <= 20; ++seed) {
    INFO("seed " << seed);
    const Problem problem = layout_sets::garment_pieces(seed, 10);
    Problem apart{problem.width, {}};
    for (Rectangle rectangle : problem.rectangles) {
      const int count = rectangle.count;
      rectangle.count = 1;
      apart.rectangles.insert(apart.rectangles.end(), static_cast<std::size_t>(count), rectangle);
    }
    std::mt19937 random(seed);
    for (std::size_t i = apart.rectangles.size(); i-- > 1;)
      std::swap(apart.rectangles[i], apart.rectangles[random() % (i + 1)]);
    const Layout one = lay(problem);
    const Layout other = lay(apart);
    CHECK(one.length == other.length);
    CHECK(one.bound == other.bound);
  }
}

TEST_CASE("larger pieces never need less, nor do more of them or a narrower strip") {
  for (std::uint32_t seed = 1; seed <= 25; ++seed) {
    INFO("seed " << seed);
    std::mt19937 random(seed);
    const Problem problem = layout_sets::garment_pieces(seed, 9);
    const Layout layout = lay(problem);
    REQUIRE(layout.shortest);
    Problem larger = problem;
    Rectangle &grown = larger.rectangles[random() % larger.rectangles.size()];
    (random() % 2 == 0 ? grown.across : grown.along) += 5.0 * static_cast<double>(1 + random() % 10);
    if (!misfit(larger)) CHECK(lay(larger).length >= layout.length);
    Problem more = problem;
    ++more.rectangles[random() % more.rectangles.size()].count;
    CHECK(lay(more).length >= layout.length);
    Problem narrower = problem;
    narrower.width -= 35;
    CHECK(lay(narrower).length >= layout.length);
  }
}

TEST_CASE("the same problem is laid the same way every time") {
  for (const Problem &problem :
       {layout_sets::garment_pieces(3, 13), layout_sets::six_garments(2, 3), layout_sets::cast(1, 300)})
    CHECK(same(lay(problem), lay(problem)));
}

TEST_CASE("without a budget there is a layout and a bound all the same") {
  for (std::uint32_t seed = 1; seed <= 10; ++seed) {
    const Problem problem = layout_sets::cast(seed, 20 * static_cast<int>(seed));
    const Layout layout = lay(problem, {0, 0});
    CHECK(layout.bound > 0);
    CHECK(layout.bound <= layout.length);
    CHECK_FALSE(check(problem, layout));
    CHECK(fits(problem, layout.length, {0, 0}).answer != Fitting::Answer::does_not);
  }
}

TEST_CASE("whether pieces fit a length is answered as they are laid, and monotonously") {
  for (std::uint32_t seed = 1; seed <= 12; ++seed) {
    INFO("seed " << seed);
    const Problem problem = layout_sets::garment_pieces(seed, 14);
    const Layout layout = lay(problem);
    REQUIRE(layout.shortest);
    for (const double share : {0.5, 0.9, 0.99, 0.999})
      CHECK(fits(problem, share * layout.length - 1).answer == Fitting::Answer::does_not);
    for (const double share : {1.0, 1.0 + 1e-12, 1.001, 1.01, 2.0})
      CHECK(fits(problem, share * layout.length).answer == Fitting::Answer::fits);
    CHECK(fits(problem, layout.length * (1 - 1e-10)).answer == Fitting::Answer::fits);
  }
}
