// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/own.hpp"

#include "gatherwright/defaults.hpp"

#include <catch2/catch.hpp>

using namespace gatherwright;
using namespace gatherwright::cli;

namespace {

GivenFabric linen() {
  GivenFabric fabric;
  fabric.name = "washed linen";
  fabric.weight = Weight{165};
  fabric.width = Length{1500};
  fabric.thickness = Length{0.34};
  fabric.bending_length = Length{23};
  fabric.shrinks = true;
  fabric.swatch = Swatch{Length{300}, Length{34}, {}, {}};
  fabric.selvedge = Length{10};
  fabric.shrinkage = Shrinkage{0.05, 0.02};
  fabric.sold_by = Length{250};
  return fabric;
}

GivenGathering counted() {
  GivenGathering gathering;
  gathering.threads = {3, 4};
  gathering.count_per_mm = 1.75;
  gathering.rows = 3;
  gathering.tail = Length{50};
  gathering.longest = Length{800};
  return gathering;
}

} // namespace

TEST_CASE("a cloth takes over from the job's what it leaves out") {
  GivenFabric own;
  own.thickness = Length{0.5};
  own.shrinks = false;
  const GivenFabric cloth = laid_over(own, linen());
  CHECK(cloth.name == "washed linen");
  CHECK(cloth.weight->grams == 165);
  CHECK(cloth.width->mm == 1500);
  CHECK(cloth.thickness->mm == 0.5);
  CHECK(cloth.bending_length->mm == 23);
  CHECK(cloth.shrinks == false);
  CHECK(cloth.swatch->tight->mm == 34);
  CHECK(!fabric_of(cloth).shrinks);
}

TEST_CASE("a cloth with a weight of its own takes over only the width") {
  GivenFabric own;
  own.weight = Weight{90};
  const GivenFabric cloth = laid_over(own, linen());
  CHECK(cloth.weight->grams == 90);
  CHECK(cloth.width->mm == 1500);
  CHECK(!cloth.name);
  CHECK(!cloth.thickness);
  CHECK(!cloth.bending_length);
  CHECK(!cloth.shrinks);
  CHECK(!cloth.swatch);
  own.width = Length{900};
  CHECK(laid_over(own, linen()).width->mm == 900);
}

TEST_CASE("a join's cloth takes over how the job's is bought, unless it has a weight of its own") {
  const GivenFabric cloth = laid_over({}, linen());
  CHECK(cloth.selvedge->mm == 10);
  CHECK(cloth.shrinkage == Shrinkage{0.05, 0.02});
  CHECK(fabric_of(cloth).sold_by->mm == 250);
  GivenFabric own;
  own.weight = Weight{90};
  const GivenFabric other = laid_over(own, linen());
  CHECK(!other.selvedge);
  CHECK(!other.shrinkage);
  CHECK(!other.sold_by);
}

TEST_CASE("a piece's cloth is another by its weight or its name, and then only width and step are taken over") {
  const auto check_another = [](const GivenFabric &own) {
    const GivenFabric cloth = cut_over(own, linen());
    CHECK(cloth.width->mm == 1500);
    CHECK(cloth.sold_by->mm == 250);
    CHECK(cloth.name == own.name);
    CHECK(cloth.weight.has_value() == own.weight.has_value());
    CHECK(!cloth.selvedge);
    CHECK(!cloth.shrinkage);
    CHECK(!cloth.thickness);
    CHECK(!cloth.bending_length);
    CHECK(!cloth.shrinks);
    CHECK(!cloth.swatch);
  };
  GivenFabric own;
  own.weight = Weight{165};
  check_another(own);
  own.name = "washed linen";
  check_another(own);
  own = {};
  own.name = "lawn";
  check_another(own);
  own.name = "";
  check_another(own);

  own.name = "washed linen";
  own.selvedge = Length{5};
  const GivenFabric same = cut_over(own, linen());
  CHECK(same.selvedge->mm == 5);
  CHECK(same.shrinkage == Shrinkage{0.05, 0.02});
  CHECK(same.weight->grams == 165);
  CHECK(cut_over({}, linen()).name == "washed linen");

  GivenFabric nameless = linen();
  nameless.name.reset();
  own = {};
  own.name = "";
  CHECK(cut_over(own, nameless).selvedge->mm == 10);
}

TEST_CASE("a cloth laid over itself, or over nothing, stays the same") {
  for (const GivenFabric &cloth : {laid_over(linen(), linen()), laid_over(linen(), {}), laid_over({}, linen())}) {
    CHECK(cloth.name == "washed linen");
    CHECK(cloth.weight->grams == 165);
    CHECK(cloth.width->mm == 1500);
    CHECK(cloth.thickness->mm == 0.34);
    CHECK(fabric_of(cloth).shrinks);
  }
}

TEST_CASE("a stitch of its own puts aside the job's threads and count, and the reverse") {
  GivenGathering stitched;
  stitched.stitch = Length{3};
  stitched.on_face = true;

  const Gathering over_counted = gathering_of(laid_over(stitched, counted()));
  CHECK(over_counted.stitch.mm == 3);
  CHECK(over_counted.on_face);
  CHECK(!over_counted.threads);
  CHECK(over_counted.rows == 3);
  CHECK(over_counted.tail.mm == 50);
  CHECK(over_counted.longest.mm == 800);

  const Gathering over_stitched = gathering_of(laid_over(counted(), stitched));
  CHECK(over_stitched.stitch.mm == 2); // (3 + 4) / 2 threads of 1.75 to the millimetre
  CHECK(!over_stitched.on_face);
  CHECK(over_stitched.threads->count_per_mm == 1.75);

  CHECK(gathering_of(laid_over({}, stitched)).on_face);
  CHECK(gathering_of(laid_over({}, counted())).stitch.mm == 2);
}

TEST_CASE("threads and count can be taken over one by one") {
  GivenGathering finer;
  finer.count_per_mm = 3.5;
  CHECK(gathering_of(laid_over(finer, counted())).stitch.mm == 1);
  GivenGathering wider;
  wider.threads = {3, 11};
  CHECK(gathering_of(laid_over(wider, counted())).stitch.mm == 4);
}

TEST_CASE("a gathering of which nothing is said has its defaults") {
  const Gathering gathering = gathering_of({});
  CHECK(gathering.stitch.mm == 4);
  CHECK(!gathering.stitch_given);
  CHECK(!gathering.rows);
  CHECK(gathering.tail.mm == 100);
  CHECK(gathering.longest.mm == 1000);
  CHECK(gathering_of(counted()).stitch_given);
}
