// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/defaults.hpp"

#include <catch2/catch.hpp>

using namespace gatherwright;

TEST_CASE("defaults go by the tape of the job's unit") {
  for (const Unit unit : {Unit::mm, Unit::cm, Unit::m}) {
    CHECK(default_tape_step(unit).mm == 1);
    CHECK(std::get<PinsApart>(default_pin_marks(unit)).most.mm == 60);
  }
  for (const Unit unit : {Unit::in, Unit::ft, Unit::yd}) {
    CHECK(default_tape_step(unit).mm * 16 == 25.4);
    CHECK(std::get<PinsApart>(default_pin_marks(unit)).most.mm == 63.5);
  }
  CHECK(mirrored_by_default(2));
  CHECK(!mirrored_by_default(3));
}
