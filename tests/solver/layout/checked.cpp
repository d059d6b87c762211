// SPDX-License-Identifier: GPL-3.0-or-later
// What the checker refuses: a layout that is right, spoilt in one place.

#include "solver/layout/certified.hpp"
#include "solver/layout/checker.hpp"
#include "solver/layout/lay.hpp"
#include "tests/solver/layout/sets.hpp"

#include <catch2/catch.hpp>

using namespace gatherwright::layout;
using What = Flaw::What;

namespace {

const Problem problem{100, {{60, 40, 2}, {30, 20, 3}, {10, 15, 1, true}}};

template <class Spoil> std::optional<What> flaw_of(Spoil spoil) {
  Layout layout = lay(problem);
  REQUIRE_FALSE(check(problem, layout));
  spoil(layout);
  const auto flaw = check(problem, layout);
  return flaw ? std::optional(flaw->what) : std::nullopt;
}

} // namespace

TEST_CASE("a layout without one of its rectangles, or with one twice, is refused") {
  CHECK(flaw_of([](Layout &layout) { layout.placements.pop_back(); }) == What::missing);
  CHECK(flaw_of([](Layout &layout) { layout.placements.push_back(layout.placements[0]); }) == What::missing);
  CHECK(flaw_of([](Layout &layout) { layout.placements[0].rectangle = 7; }) == What::missing);
  CHECK(flaw_of([](Layout &layout) { layout.placements[0].copy = 3; }) == What::missing);
}

TEST_CASE("a rectangle that may not turn does not lie turned") {
  CHECK(flaw_of([](Layout &layout) { layout.placements[0].turned = true; }) == What::turned);
}

TEST_CASE("a rectangle lies on the strip, within the layout's length") {
  CHECK(flaw_of([](Layout &layout) { layout.placements[0].across = 41; }) == What::outside);
  CHECK(flaw_of([](Layout &layout) { layout.placements[0].along = -1; }) == What::outside);
  CHECK(flaw_of([](Layout &layout) { layout.placements[0].along = layout.length - 39; }) == What::outside);
  CHECK(flaw_of([](Layout &layout) { layout.placements[0].along = NAN; }) == What::outside);
  CHECK(flaw_of([](Layout &layout) { layout.length = INFINITY; }) == What::length);
}

TEST_CASE("no rectangle lies over another") {
  CHECK(flaw_of([](Layout &layout) {
          layout.placements[0].across = layout.placements[1].across;
          layout.placements[0].along = layout.placements[1].along;
        }) == What::overlaps);
}

TEST_CASE("each cut runs straight through the part that it divides, and in the order that is told") {
  CHECK(flaw_of([](Layout &layout) { layout.cuts[0].to -= 1; }) == What::cut);
  CHECK(flaw_of([](Layout &layout) { layout.cuts[0].from += 1; }) == What::cut);
  CHECK(flaw_of([](Layout &layout) { layout.cuts[0].at = 0; }) == What::cut);
  CHECK(flaw_of([](Layout &layout) { layout.cuts[0].at = layout.length; }) == What::cut);
  CHECK(flaw_of([](Layout &layout) { layout.cuts[0].at = NAN; }) == What::cut);
  CHECK(flaw_of([](Layout &layout) { layout.cuts.erase(layout.cuts.begin()); }) == What::cut);
  CHECK(flaw_of([](Layout &layout) { layout.cuts.pop_back(); }) == What::not_cut_out);
}

TEST_CASE("a layout's bound is no longer than it, and it is the shortest just where they are the same") {
  CHECK(flaw_of([](Layout &layout) { layout.bound = layout.length + 1; }) == What::bound);
  CHECK(flaw_of([](Layout &layout) { layout.bound = NAN; }) == What::bound);
  CHECK(flaw_of([](Layout &layout) { layout.shortest = !layout.shortest; }) == What::bound);
  CHECK(flaw_of([](Layout &layout) { layout.bound = layout.certified - 1; }) == What::bound);
}

TEST_CASE("a certificate that claims more than its prices prove is refused") {
  for (std::uint32_t seed = 1; seed <= 60; ++seed) {
    INFO("seed " << seed);
    const Problem garments = layout_sets::garment_pieces(seed, 9);
    const Layout layout = lay(garments);
    Certificate certificate = layout.certificate;
    REQUIRE(certified(garments, certificate));
    CHECK(*certified(garments, certificate) <= layout.length * (1 + rounding));
    // One more than the shortest there is can have no proof.
    if (!layout.shortest) continue;
    certificate.least +=
        1 + static_cast<std::int64_t>(
                (layout.length - layout.certified) * certificate.along.over / certificate.along.times + 0.5);
    CHECK_FALSE(certified(garments, certificate));
    certificate = layout.certificate;
    certificate.width -= 1;
    CHECK_FALSE(certified(garments, certificate));
    certificate = layout.certificate;
    certificate.price.pop_back();
    CHECK_FALSE(certified(garments, certificate));
    certificate = layout.certificate;
    certificate.across.over = 0;
    CHECK_FALSE(certified(garments, certificate));
  }
}

TEST_CASE("a certificate does not set aside what something fits beside") {
  const Problem narrow{100, {{60, 10, 1}, {40, 10, 1}}};
  Layout layout = lay(narrow);
  REQUIRE(layout.length == 10);
  layout.certificate.aside = {0, 1};
  layout.certificate.least = 0;
  CHECK_FALSE(certified(narrow, layout.certificate));
  layout.certificate.aside = {2};
  CHECK_FALSE(certified(narrow, layout.certificate));
}
