// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/limits.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

using namespace gatherwright;
using namespace gatherwright::cloth;

namespace {

Fabric of_weight(double grams) {
  Fabric fabric;
  fabric.weight = Weight{grams};
  return fabric;
}

Gathering with_stitch(double mm) {
  Gathering gathering;
  gathering.stitch = Length{mm};
  return gathering;
}

Limits gathers(const Fabric &fabric, const OwnLimits &own = {}) {
  return limits(fabric, Gathering{}, Kind::gather, own);
}

// A handful of operations on values up to 12: far below this.
Approx same(double value) {
  return Approx(value).epsilon(1e-12).margin(0);
}

void check(const Limits &found, double least, double ideal, double most, double packed) {
  CHECK(found.least == same(least));
  CHECK(found.ideal == same(ideal));
  CHECK(found.most == same(most));
  CHECK(found.packed == same(packed));
}

} // namespace

// Figures of worked plans, computed from the method by a separate program in another language.
TEST_CASE("the limits of worked plans come out") {
  Fabric linen = of_weight(165);
  check(gathers(linen), 1.18, 2.1, 2.7, 8.080808080808081);
  check(gathers(of_weight(120)), 1.22, 2.3, 3.0, 11.11111111111111);
  check(gathers(of_weight(150)), 1.1912506096367788, 2.1690725205585903, 2.8025244964245903, 8.88888888888889);

  linen.bending_length = Length{23};
  check(gathers(linen), 1.18, 1.94938673913125, 2.467234051384659, 8.080808080808081);

  Fabric lawn = of_weight(80);
  lawn.bending_length = Length{16};
  check(limits(lawn, with_stitch(2.5), Kind::gather, {}), 1.28, 2.8129104351941283, 3.8326725549908254,
        10.416666666666666);

  Fabric wool = of_weight(420);
  wool.shrinks = true;
  check(limits(wool, with_stitch(6), Kind::gauge, {}), 2.5, 3.0860669992418384, 3.8095238095238098, 4.761904761904762);

  Fabric tried = of_weight(165);
  tried.thickness = Length{0.34};
  tried.bending_length = Length{23};
  tried.swatch = Swatch{Length{300}, Length{34}, std::array{Length{100}, Length{160}}, Length{4}};
  check(limits(tried, with_stitch(3), Kind::gather, {}), 1.875, 2.3717082451262845, 3.0, 6.617647058823531);

  CHECK(limits(of_weight(165), Gathering{}, Kind::ease, {}).most == same(1.08));
  CHECK(limits(of_weight(120), Gathering{}, Kind::ease, {}).most == same(1.07));
}

TEST_CASE("without a weight it is found from the thickness, and without either 150 g/m2 is taken") {
  CHECK(weight(Fabric{}) == Weight{150});
  check(gathers(Fabric{}), 1.1912506096367788, 2.1690725205585903, 2.8025244964245903, 8.88888888888889);

  Fabric fabric;
  fabric.thickness = Length{0.25};
  CHECK(weight(fabric).grams == same(125));
  const Limits found = gathers(fabric);
  const Limits same_by_weight = gathers(of_weight(125));
  check(found, same_by_weight.least, same_by_weight.ideal, same_by_weight.most, 2 * 4 / (3 * 0.25));
}

TEST_CASE("a measured thickness moves ideal and most by its ratio, and no further than 0.6 or 1.4") {
  const auto measured = [](double thickness) {
    Fabric fabric = of_weight(120);
    fabric.thickness = Length{thickness};
    return gathers(fabric);
  };
  const double ordinary = 120 / 500.0;
  check(measured(ordinary * 1.25), 1.22, 1 + 1.3 * 0.8, 1 + 2.0 * 0.8, 8 / (3 * ordinary * 1.25));
  check(measured(ordinary), 1.22, 2.3, 3.0, 8 / (3 * ordinary));
  check(measured(ordinary * 2), 1.22, 1 + 1.3 * 0.6, 1 + 2.0 * 0.6, 8 / (3 * ordinary * 2));
  check(measured(ordinary / 3), 1.22, 1 + 1.3 * 1.4, 1 + 2.0 * 1.4, 8 / ordinary);
}

TEST_CASE("a stiffer cloth takes less fullness by the power 0.75 of its bending length") {
  const auto measured = [](double bending_length) {
    Fabric fabric = of_weight(120);
    fabric.bending_length = Length{bending_length};
    return gathers(fabric);
  };
  const double packed = 11.11111111111111;
  check(measured(18.9), 1.22, 2.3, 3.0, packed);
  // 16 / 81 to the power of 3 / 4 is 8 / 27, past the bound; 0.8 and 1.2 are within.
  check(measured(18.9 * 81 / 16), 1.22, 1 + 1.3 * 0.6, 1 + 2.0 * 0.6, packed);
  check(measured(18.9 / std::pow(0.8, 4 / 3.0)), 1.22, 1 + 1.3 * 0.8, 1 + 2.0 * 0.8, packed);
  check(measured(18.9 / std::pow(1.2, 4 / 3.0)), 1.22, 1 + 1.3 * 1.2, 1 + 2.0 * 1.2, packed);
  check(measured(1), 1.22, 1 + 1.3 * 1.4, 1 + 2.0 * 1.4, packed);
}

TEST_CASE("thickness and bending multiply, and leave least alone; ease goes by bending alone") {
  Fabric fabric = of_weight(300);
  fabric.thickness = Length{300 / 500.0 / 0.7};
  fabric.bending_length = Length{18.9 / std::pow(0.9, 4 / 3.0)};
  check(gathers(fabric), 1.12, 1 + 0.6 * 0.63, 1 + 1.0 * 0.63, 8 / (3 * 300 / 500.0 / 0.7));
  CHECK(limits(fabric, Gathering{}, Kind::ease, {}).most == same(1 + 0.09 * 0.9));
}

TEST_CASE("both factors at their bounds never bring a limit below least") {
  for (double grams = 20; grams < 600; grams += 1) {
    Fabric fabric = of_weight(grams);
    fabric.thickness = Length{10};
    fabric.bending_length = Length{200};
    const Limits found = limits(fabric, with_stitch(200), Kind::gather, {});
    REQUIRE(found.ideal >= found.least);
    REQUIRE(found.most >= found.ideal);
  }
}

// "The New Dressmaker", Butterick, 1921, ch. 28: chiffon 3 to 1, taffeta and other stuffs with more body about 2. The
// weights and the bending length are ours for such cloths.
TEST_CASE("chiffon is gathered three to one and taffeta about two") {
  CHECK(gathers(of_weight(40)).ideal == same(3));
  Fabric taffeta = of_weight(80);
  taffeta.bending_length = Length{35};
  CHECK(gathers(taffeta).ideal == Approx(2).margin(0.02));
}

// Straight ruffles 1 1/3 to 1 1/2, bias ones 1 1/4 to 1 1/3 (Baldt, "Clothing for Women"); short sleeves of fine cloth
// to 3.14, others 1.33 to 2.4 ("The Workwoman's Guide", 1838).
TEST_CASE("ruffles and sleeves as they were published are within limits") {
  for (double grams = 105; grams <= 400; grams += 5) {
    const Limits found = gathers(of_weight(grams));
    REQUIRE(found.least <= 1.25);
    REQUIRE(found.most >= 1.5);
  }
  for (double grams = 55; grams <= 195; grams += 5) {
    const Limits found = gathers(of_weight(grams));
    REQUIRE(found.least <= 4 / 3.0);
    REQUIRE(found.most >= 2.4);
  }
  CHECK(gathers(of_weight(80)).most >= 3.14);
}

// The fullest and the slackest of the 39 joins tabled in "The Workwoman's Guide", 1838: 12 / 5 and 4 / 3 to 1. The
// range is the one that docs/sources.md tells.
TEST_CASE("every join of the handbook's scales is within limits from 48 to 198 g/m2, and not beyond") {
  for (double grams = 48; grams <= 198; grams += 1) {
    const Limits found = gathers(of_weight(grams));
    REQUIRE(found.least <= 4 / 3.0);
    REQUIRE(found.most >= 12 / 5.0);
  }
  CHECK(gathers(of_weight(47)).least > 4 / 3.0);
  CHECK(gathers(of_weight(199)).most < 12 / 5.0);
}

TEST_CASE("closest packing is one and a half thicknesses a stitch and bounds every limit") {
  const Fabric felt = of_weight(750); // 1.5 mm thick
  check(limits(felt, with_stitch(4), Kind::gather, {}), 1.10, 1.5, 8 / 4.5, 8 / 4.5);
  check(limits(felt, with_stitch(5), Kind::gather, {}), 1.10, 1.5, 1.9, 10 / 4.5);
  check(limits(felt, with_stitch(3), Kind::gather, {}), 1.10, 6 / 4.5, 6 / 4.5, 6 / 4.5);
  check(limits(felt, with_stitch(1), Kind::gather, {}), 1, 1, 1, 1);
  check(limits(felt, with_stitch(3), Kind::gather, {1.2, 1.6, 1.7}), 1.2, 6 / 4.5, 6 / 4.5, 6 / 4.5);
}

TEST_CASE("gauging goes by the closest packing, drawing runs from flat up to it") {
  const Fabric linen = of_weight(165);
  const double packed = 2 * 4 * 500 / (3 * 165.0);
  const double most = 0.8 * packed;
  check(limits(linen, with_stitch(4), Kind::gauge, {}), 2.5, std::sqrt(2.5 * most), most, packed);
  check(limits(linen, with_stitch(4), Kind::draw, {}), 1, 2.1, packed, packed);
  // Small stitches: the least comes down to the most, and an ideal to the closest packing.
  const double tight = 2 * 0.8 * 500 / (3 * 165.0);
  check(limits(linen, with_stitch(0.8), Kind::gauge, {}), 0.8 * tight, 0.8 * tight, 0.8 * tight, tight);
  check(limits(linen, with_stitch(0.8), Kind::draw, {}), 1, tight, tight, tight);
  check(limits(linen, with_stitch(0.5), Kind::gauge, {}), 1, 1, 1, 2 * 0.5 * 500 / (3 * 165.0));
}

TEST_CASE("a swatch drawn tight gives the thickness, and packing at any stitch") {
  Fabric fabric = of_weight(165);
  fabric.thickness = Length{0.5};
  fabric.swatch = Swatch{Length{300}, Length{40}, std::nullopt, std::nullopt};
  // Its stitch is the gathering's where none is given, and packing then what the strip showed.
  CHECK(packed(fabric, with_stitch(4)) == same(7.5));
  CHECK(thickness(fabric, with_stitch(4)) == same(2 / 3.0 * 4 / 7.5));
  fabric.swatch->stitch = Length{4};
  CHECK(packed(fabric, with_stitch(2)) == same(3.75));
  // Tight alone leaves the other limits to what was measured.
  Fabric without = fabric;
  without.swatch.reset();
  const Limits found = gathers(fabric);
  CHECK(found.most == gathers(without).most);
  CHECK(found.ideal == gathers(without).ideal);
  // Gauging goes by what it showed too.
  check(limits(fabric, with_stitch(4), Kind::gauge, {}), 2.5, std::sqrt(2.5 * 6), 6, 7.5);
}

TEST_CASE("a swatch that looks good sets the limits of gathers and the ideal of a casing, whatever was measured") {
  Fabric fabric = of_weight(165);
  fabric.thickness = Length{0.3};
  fabric.bending_length = Length{30};
  fabric.swatch = Swatch{Length{300}, std::nullopt, std::array{Length{120}, Length{200}}, std::nullopt};
  const double packed = 8 / (3 * 0.3);
  check(gathers(fabric), 1.5, std::sqrt(1.5 * 2.5), 2.5, packed);
  check(limits(fabric, Gathering{}, Kind::draw, {}), 1, std::sqrt(1.5 * 2.5), packed, packed);
  check(limits(fabric, Gathering{}, Kind::gauge, {}), 2.5, std::sqrt(2.5 * 0.8 * packed), 0.8 * packed, packed);
  check(gathers(fabric, {1.1, {}, {}}), 1.1, std::sqrt(1.5 * 2.5), 2.5, packed);
}

TEST_CASE("the maker's own limits come first, and an ideal not given moves between them") {
  const Fabric linen = of_weight(165);
  const double packed = 8.080808080808081;
  check(gathers(linen, {1.5, 2.2, 2.8}), 1.5, 2.2, 2.8, packed);
  check(gathers(linen, {2.4, {}, {}}), 2.4, 2.4, 2.7, packed);
  check(gathers(linen, {{}, {}, 1.9}), 1.18, 1.9, 1.9, packed);
  check(gathers(linen, {1.3, {}, 3.2}), 1.3, 2.1, 3.2, packed);
  check(gathers(linen, {{}, 2.5, {}}), 1.18, 2.5, 2.7, packed);
  check(gathers(linen, {{}, {}, 20.0}), 1.18, 2.1, packed, packed);
  check(limits(linen, Gathering{}, Kind::gauge, {3.5, {}, 4.0}), 3.5, 4.0, 4.0, packed);
}

TEST_CASE("a limit of the maker's own that passes the cloth's other one moves it") {
  const Fabric linen = of_weight(165);
  const double packed = 8.080808080808081;
  check(gathers(linen, {3.0, {}, {}}), 3, 3, 3, packed);
  check(gathers(linen, {{}, {}, 1.1}), 1.1, 1.1, 1.1, packed);
}

TEST_CASE("ease has half of its most for an ideal, and steam and grain multiply its margin") {
  const double linen_packed = packed(of_weight(165), {});
  check(limits(of_weight(165), Gathering{}, Kind::ease, {}), 1, 1.04, 1.08, linen_packed);
  check(limits(of_weight(165), Gathering{}, Kind::ease, {}, {.bias = 0.5}), 1, 1.02, 1.04, linen_packed);
  Fabric wool = of_weight(300);
  wool.shrinks = true;
  const double wool_packed = packed(wool, {});
  check(limits(wool, Gathering{}, Kind::ease, {}), 1, 1.0675, 1.135, wool_packed);
  check(limits(wool, Gathering{}, Kind::ease, {}, {.bias = 0.8}), 1, 1.054, 1.108, wool_packed);
  check(limits(wool, Gathering{}, Kind::ease, {{}, {}, 1.04}, {.bias = 0.8}), 1, 1.02, 1.04, wool_packed);
  check(limits(wool, Gathering{}, Kind::flat, {}), 1, 1, 1, 1);
}

TEST_CASE("no more is eased in than closest packing takes") {
  // A stitch of 1 mm in cloth 0.6 mm thick: 2 / 1.8 to 1.
  Fabric felt = of_weight(300);
  felt.thickness = Length{0.6};
  const double packed = 2 * 1.0 / (3 * 0.6);
  check(limits(felt, with_stitch(1), Kind::ease, {{}, {}, 1.3}), 1, (1 + packed) / 2, packed, packed);
  felt.thickness = Length{0.64}; // 2 / 1.92 is less than the 9 % that a cloth of this weight eases
  check(limits(felt, with_stitch(1), Kind::ease, {}), 1, (1 + 2 / 1.92) / 2, 2 / 1.92, 2 / 1.92);
  CHECK(reasons_of(explain(felt, with_stitch(1), Kind::ease).most) ==
        std::vector{Reason::ease_by_weight, Reason::suppleness_unknown, Reason::packed_bounds});
}

TEST_CASE("ease goes by how supple the cloth is, from 0.75 of an ordinary cloth's to 1.2") {
  const auto most = [](double bending_length) {
    Fabric fabric = of_weight(165);
    fabric.bending_length = Length{bending_length};
    return limits(fabric, Gathering{}, Kind::ease, {}).most;
  };
  CHECK(most(18.9) == same(1.08));
  CHECK(most(18.9 / std::pow(1.1, 4 / 3.0)) == same(1 + 0.08 * 1.1));
  CHECK(most(18.9 / std::pow(0.9, 4 / 3.0)) == same(1 + 0.08 * 0.9));
  CHECK(most(1) == same(1 + 0.08 * 1.2));
  CHECK(most(100) == same(1 + 0.08 * 0.75));
  // Steam and grain come on top, and the maker's own limit over all.
  Fabric wool = of_weight(300);
  wool.bending_length = Length{100};
  wool.shrinks = true;
  check(limits(wool, Gathering{}, Kind::ease, {}, {.bias = 0.8}), 1, 1.0405, 1.081, packed(wool, {}));
  check(limits(wool, Gathering{}, Kind::ease, {{}, {}, 1.04}), 1, 1.02, 1.04, packed(wool, {}));
}

TEST_CASE("a skirt goes into its waistband 1.75 times as full, and no fuller than 0.8 of closest packing") {
  const auto skirt = [](const Fabric &fabric, double stitch, Kind kind = Kind::gather, const OwnLimits &own = {}) {
    return limits(fabric, with_stitch(stitch), kind, own, {.use = Use::skirt});
  };
  check(skirt(of_weight(120), 4), 1.22, 2.3, 5.25, 11.11111111111111);
  check(skirt(of_weight(300), 3.5), 1.12, 1.6, 0.8 * 7 / 1.8, 7 / 1.8);
  // Where 0.8 of packing is less than what any gathers may have, it stays at that.
  check(skirt(of_weight(300), 2), 1.12, 1.6, 2, 4 / 1.8);
  check(skirt(of_weight(300), 1.5), 1.12, 1.6, 3 / 1.8, 3 / 1.8);
  // The swatch and what was measured come before it, the maker's own limits after.
  Fabric tried = of_weight(120);
  tried.swatch = Swatch{Length{300}, std::nullopt, std::array{Length{120}, Length{200}}, std::nullopt};
  check(skirt(tried, 4), 1.5, std::sqrt(1.5 * 2.5), 1.75 * 2.5, 11.11111111111111);
  check(skirt(of_weight(120), 4, Kind::gather, {{}, {}, 4.0}), 1.22, 2.3, 4, 11.11111111111111);
  for (const Kind kind : {Kind::gauge, Kind::draw, Kind::ease, Kind::flat}) {
    const Limits plain = limits(of_weight(120), with_stitch(4), kind, {});
    check(skirt(of_weight(120), 4, kind), plain.least, plain.ideal, plain.most, plain.packed);
  }
}

TEST_CASE("a curtain hangs at 2 or 2 1/2, with 1.5 at least and 3 at most or what the cloth takes") {
  const auto curtain = [](const Fabric &fabric, Kind kind = Kind::gather, double stitch = 4,
                          const OwnLimits &own = {}) {
    return limits(fabric, with_stitch(stitch), kind, own, {.use = Use::curtain});
  };
  check(curtain(of_weight(80)), 1.5, 2.5, 3.5, 8 / (3 * 80 / 500.0));
  check(curtain(of_weight(164.999)), 1.5, 2.5, 3, 8 / (3 * 164.999 / 500.0));
  check(curtain(of_weight(165)), 1.5, 2, 3, 8.080808080808081);
  check(curtain(of_weight(400)), 1.5, 2, 3, 8 / 2.4);
  check(curtain(of_weight(400), Kind::gather, 3), 1.5, 2, 2.5, 6 / 2.4);
  check(curtain(Fabric{}), 1.5, 2.5, 3, 8.88888888888889); // 150 g/m2 taken
  check(curtain(of_weight(165), Kind::draw), 1, 2, 8.080808080808081, 8.080808080808081);
  check(curtain(of_weight(165), Kind::gather, 4, {1.3, {}, 1.8}), 1.3, 1.8, 1.8, 8.080808080808081);
  // A test strip that looks good only fuller than a curtain's ideal moves it.
  Fabric tried = of_weight(165);
  tried.swatch = Swatch{Length{300}, std::nullopt, std::array{Length{60}, Length{120}}, std::nullopt};
  check(curtain(tried), 2.5, 2.5, 5, 8.080808080808081);
  for (const Kind kind : {Kind::gauge, Kind::ease, Kind::flat}) {
    const Limits plain = limits(of_weight(165), Gathering{}, kind, {});
    check(curtain(of_weight(165), kind), plain.least, plain.ideal, plain.most, plain.packed);
  }
}

TEST_CASE("the limits of a use tell what they come from") {
  using enum Reason;
  const auto told = [](double grams, Use use, Kind kind = Kind::gather) {
    return explain(of_weight(grams), Gathering{}, kind, {}, {.use = use});
  };
  CHECK(reasons_of(told(120, Use::skirt).most) == std::vector{by_weight, skirt});
  CHECK(reasons_of(told(120, Use::skirt).ideal) == std::vector{by_weight});
  CHECK(grounds(told(120, Use::skirt).most) == Grounds::our_model);
  CHECK(reasons_of(told(165, Use::curtain).least) == std::vector{curtain_least});
  CHECK(reasons_of(told(165, Use::curtain).ideal) == std::vector{curtain_ideal});
  CHECK(reasons_of(told(165, Use::curtain).most) == std::vector{curtain_most});
  CHECK(reasons_of(told(80, Use::curtain).most) == std::vector{by_weight});
  CHECK(grounds(told(165, Use::curtain).most) == Grounds::published);
  CHECK(grounds(told(165, Use::curtain).least) == Grounds::practice);
  CHECK(reasons_of(explain(Fabric{}, Gathering{}, Kind::gather, {}, {.use = Use::curtain}).ideal) ==
        std::vector{assumed_weight, curtain_ideal});
}

TEST_CASE("limits of any cloth are finite and in order") {
  std::mt19937_64 random(20240517);
  std::uniform_real_distribution<double> exponent(-1, 1);
  const auto about = [&](double middle, double decades) { return middle * std::pow(10, decades * exponent(random)); };
  const auto sometimes = [&] { return exponent(random) > 0; };
  for (int i = 0; i < 4000; ++i) {
    const double decades = i % 10 == 0 ? 300 : 1.5;
    Fabric fabric;
    if (sometimes()) fabric.weight = Weight{about(150, decades)};
    if (sometimes()) fabric.thickness = Length{about(0.3, decades)};
    if (sometimes()) fabric.bending_length = Length{about(19, decades)};
    fabric.shrinks = sometimes();
    if (sometimes()) {
      const double cut = about(300, 1);
      fabric.swatch = Swatch{Length{cut}, {}, {}, {}};
      if (sometimes()) fabric.swatch->tight = Length{cut / 9};
      if (sometimes()) fabric.swatch->good = std::array{Length{cut / 3}, Length{cut / 1.5}};
    }
    const Gathering gathering = with_stitch(about(4, decades));
    OwnLimits own;
    if (sometimes()) own.least = about(10, 1);
    if (sometimes()) own.most = about(10, 1);
    Seam seam;
    if (sometimes()) seam.use = sometimes() ? Use::skirt : Use::curtain;
    for (const Kind kind : {Kind::gather, Kind::gauge, Kind::draw, Kind::ease, Kind::flat}) {
      const OwnLimits applied = kind == Kind::ease ? OwnLimits{{}, {}, own.most} : own;
      const Limits found = limits(fabric, gathering, kind, applied, seam);
      REQUIRE(std::isfinite(found.packed));
      REQUIRE(1 <= found.least);
      REQUIRE(found.least <= found.ideal);
      REQUIRE(found.ideal <= found.most);
      REQUIRE(found.most <= found.packed);
      const Explanation told = explain(fabric, gathering, kind, applied, seam);
      REQUIRE(told.least.value == found.least);
      REQUIRE(told.ideal.value == found.ideal);
      REQUIRE(told.most.value == found.most);
      REQUIRE(told.packed.value == found.packed);
      if (kind == Kind::flat) continue;
      for (const Reckoned &limit : {told.least, told.ideal, told.most, told.packed})
        REQUIRE(limit.reasons.any());
    }
  }
}

TEST_CASE("for ease least is 1 and ideal halfway to most, and for flat all are 1") {
  for (double grams = 40; grams <= 400; grams += 7) {
    for (const OwnLimits &own : {OwnLimits{}, OwnLimits{{}, {}, 1.03}}) {
      const Limits ease = limits(of_weight(grams), Gathering{}, Kind::ease, own);
      CHECK(ease.least == 1);
      CHECK(ease.ideal == Approx((1 + ease.most) / 2).epsilon(1e-15));
      CHECK(ease.most > 1);
    }
    const Limits flat = limits(of_weight(grams), Gathering{}, Kind::flat, {});
    for (const double limit : {flat.least, flat.ideal, flat.most, flat.packed})
      CHECK(limit == 1);
  }
}

TEST_CASE("every limit tells what it comes from, in order") {
  using enum Reason;
  const Explanation assumed = explain(Fabric{}, Gathering{}, Kind::gather);
  CHECK(reasons_of(assumed.most) == std::vector{by_weight, assumed_weight});
  CHECK(reasons_of(assumed.packed) == std::vector{assumed_weight, thickness_by_weight});
  CHECK(assumed.weight == weight_assumed);
  CHECK(assumed.thickness == same(150 / 500.0));

  Fabric fabric = of_weight(165);
  fabric.thickness = Length{0.34};
  fabric.bending_length = Length{23};
  const Explanation measured = explain(fabric, Gathering{}, Kind::gather);
  CHECK(reasons_of(measured.least) == std::vector{by_weight});
  CHECK(reasons_of(measured.ideal) == std::vector{by_weight, thickness_factor, bending_factor});
  CHECK(reasons_of(measured.packed) == std::vector{thickness_measured});
  CHECK(measured.thickness_factor == same(165 / 500.0 / 0.34));
  CHECK(measured.bending_factor == same(std::pow(18.9 / 23, 0.75)));

  Fabric by_thickness;
  by_thickness.thickness = Length{0.34};
  CHECK(reasons_of(explain(by_thickness, Gathering{}, Kind::gather).most) ==
        std::vector{by_weight, weight_from_thickness});

  fabric.swatch = Swatch{Length{300}, Length{34}, std::array{Length{100}, Length{160}}, Length{4}};
  const Explanation tried = explain(fabric, Gathering{}, Kind::gather, {{}, {}, 1.9});
  CHECK(reasons_of(tried.least) == std::vector{swatch});
  CHECK(reasons_of(tried.most) == std::vector{own});
  CHECK(reasons_of(tried.ideal) == std::vector{swatch, moved});
  CHECK(reasons_of(tried.packed) == std::vector{swatch});

  const Explanation tight = explain(of_weight(750), with_stitch(3), Kind::gather);
  CHECK(reasons_of(tight.most) == std::vector{by_weight, packed_bounds});

  Fabric wool = of_weight(300);
  wool.shrinks = true;
  CHECK(reasons_of(explain(wool, Gathering{}, Kind::ease, {}, {.bias = 0.7}).most) ==
        std::vector{ease_by_weight, suppleness_unknown, shrinks, grain});
  CHECK(reasons_of(explain(wool, Gathering{}, Kind::gauge).least) == std::vector{gauging});
  CHECK(reasons_of(explain(wool, Gathering{}, Kind::draw).least) == std::vector{casing});
}

TEST_CASE("a limit stands no firmer than the weakest of its reasons") {
  Fabric fabric = of_weight(165);
  CHECK(grounds(explain(fabric, Gathering{}, Kind::gather).most) == Grounds::practice);
  CHECK(grounds(explain(fabric, Gathering{}, Kind::gather).packed) == Grounds::our_model);
  fabric.bending_length = Length{23};
  CHECK(grounds(explain(fabric, Gathering{}, Kind::gather).most) == Grounds::our_model);
  CHECK(grounds(explain(fabric, Gathering{}, Kind::gather).least) == Grounds::practice);
  fabric.swatch = Swatch{Length{300}, {}, std::array{Length{100}, Length{160}}, {}};
  CHECK(grounds(explain(fabric, Gathering{}, Kind::gather).most) == Grounds::makers_own);
}

// Check values of a strip bending under its own weight: W 168, c 15.00 mm gives 5.56; W 150, c 20 mm gives 11.76798.
TEST_CASE("flexural rigidity is weight times the cube of the bending length") {
  CHECK(flexural_rigidity(Weight{168}, Length{15}) == Approx(5.56).margin(0.005));
  CHECK(flexural_rigidity(Weight{150}, Length{20}) == same(11.76798));
  Fabric fabric = of_weight(150);
  CHECK_FALSE(explain(fabric, Gathering{}, Kind::gather).flexural_rigidity);
  fabric.bending_length = Length{20};
  CHECK(explain(fabric, Gathering{}, Kind::gather).flexural_rigidity == 9.80665e-6 * 150 * 20 * 20 * 20);
}
