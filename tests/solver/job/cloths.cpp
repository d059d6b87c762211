// SPDX-License-Identifier: GPL-3.0-or-later
// The cloths that pieces are cut from.

#include "gatherwright/cloths.hpp"

#include "gatherwright/piece.hpp"
#include "tests/draft.hpp"

using namespace gatherwright;
using namespace gatherwright::tests;

namespace {

Fabric called(const std::string &name, double width) {
  Fabric fabric = weighing(150, cm(width));
  fabric.name = name;
  return fabric;
}

Draft three_cloths() {
  return {.fabric = called("linen", 150),
          .joins = {{.name = "sleeve into cuff", .long_edge = "50 cm", .band = "22 cm"}},
          .pieces = {{.name = "lining", .across = "50 cm", .along = "40 cm", .fabric = called("lawn", 115)},
                     {.name = "body", .across = "60 cm", .along = "90 cm"},
                     {.name = "yoke", .across = "40 cm", .along = "20 cm", .fabric = called("lawn", 115)},
                     {.name = "sleeve", .across = "50 cm", .along = "56 cm"}}};
}

} // namespace

TEST_CASE("sides that run across start at the left, and those that run along at the top") {
  CHECK(side_before(Side::top) == Side::left);
  CHECK(side_before(Side::bottom) == Side::left);
  CHECK(side_before(Side::left) == Side::top);
  CHECK(side_before(Side::right) == Side::top);
}

TEST_CASE("turned over twice a side is itself") {
  for (const Side side : all_sides) {
    CHECK(turned_over(turned_over(side)) == side);
    CHECK((turned_over(side) == side) == runs_across(side));
  }
}

TEST_CASE("cloths stand in the order of the first piece that is cut from each") {
  const Cloths cloths = cloths_of(job_of(three_cloths()));
  REQUIRE(cloths.cloths.size() == 2);
  CHECK(cloths.cloths[0].name == "lawn");
  CHECK(cloths.cloths[1].name == "linen");
  CHECK(cloths.of_piece == std::vector{0, 1, 0, 1});
}

TEST_CASE("each thing that is said of a cloth tells it from another") {
  const Cloth cloth = cloth_of(called("linen", 150), Unit::cm);
  const auto differs = [&](auto change) {
    Fabric other = called("linen", 150);
    change(other);
    return cloth_of(other, Unit::cm) != cloth;
  };
  CHECK_FALSE(differs([](Fabric &) {}));
  CHECK_FALSE(differs([](Fabric &fabric) { fabric.weight = Weight{200.0}; })); // gathers otherwise, is laid the same
  CHECK_FALSE(differs([](Fabric &fabric) { fabric.selvedge = mm(0); }));
  CHECK_FALSE(differs([](Fabric &fabric) { fabric.sold_by = cm(10); }));
  CHECK(differs([](Fabric &fabric) { fabric.name = "lawn"; }));
  CHECK(differs([](Fabric &fabric) { fabric.width = cm(140); }));
  CHECK(differs([](Fabric &fabric) { fabric.selvedge = cm(1); }));
  CHECK(differs([](Fabric &fabric) { fabric.shrinkage = Shrinkage{0.05, 0}; }));
  CHECK(differs([](Fabric &fabric) { fabric.sold_by = cm(25); }));
  CHECK(cloth_of(called("linen", 150), Unit::in).sold_by == Length{914.4 / 8});
}

TEST_CASE("of the width as bought shrinkage takes its share, and selvedges what they are") {
  Fabric fabric = called("linen", 150);
  CHECK(usable(cloth_of(fabric, Unit::cm)) == 1500);
  fabric.selvedge = cm(1);
  fabric.shrinkage = Shrinkage{0.05, 0.02};
  CHECK(usable(cloth_of(fabric, Unit::cm)).value() == Approx(1500 * 0.98 - 20).epsilon(1e-14));
  fabric.width.reset();
  CHECK_FALSE(usable(cloth_of(fabric, Unit::cm)).has_value());
}
