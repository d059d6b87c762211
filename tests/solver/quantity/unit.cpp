// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/unit.hpp"

#include <catch2/catch.hpp>

#include <cstddef>

using namespace gatherwright;

TEST_CASE("the rows of the units stand in the order of the units") {
  CHECK(name(Unit::mm) == "mm");
  CHECK(name(Unit::cm) == "cm");
  CHECK(name(Unit::m) == "m");
  CHECK(name(Unit::in) == "in");
  CHECK(name(Unit::ft) == "ft");
  CHECK(name(Unit::yd) == "yd");
  CHECK(name(Unit::nail) == "nail");
  CHECK(name(Unit::ell) == "ell");
  REQUIRE(all_units.size() == units.size());
  for (std::size_t i = 0; i < units.size(); ++i)
    CHECK(static_cast<std::size_t>(all_units[i]) == i);
}

TEST_CASE("a unit has as many millimetres as its definition says") {
  CHECK(millimetres(Unit::mm) == 1.0);
  CHECK(millimetres(Unit::cm) == 10.0);
  CHECK(millimetres(Unit::m) == 1000.0);
  CHECK(millimetres(Unit::in) == 25.4);       // the agreement of 1959
  CHECK(millimetres(Unit::ft) == 304.8);      // 12 of them
  CHECK(millimetres(Unit::yd) == 914.4);      // 36
  CHECK(millimetres(Unit::nail) == 57.15);    // 2 1/4, a sixteenth of a yard
  CHECK(millimetres(Unit::ell) == 45 * 25.4); // 45
}

TEST_CASE("inches are strung to feet and yards, of which there are as many as go into one") {
  for (const Unit unit : all_units) {
    const auto strung = inches_strung_to(unit);
    CHECK(strung.has_value() == (unit == Unit::ft || unit == Unit::yd));
    if (strung) CHECK(*strung * millimetres(Unit::in) == Approx(millimetres(unit)).epsilon(1e-15)); // rounded once more
  }
}
