// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/draft.hpp"

#include <catch2/catch.hpp>

using namespace gatherwright;
using namespace gatherwright::tests;

TEST_CASE("a length may be written before those that it is made of") {
  const Plan plan =
      plan_of(Draft{.measures = {{"wrist", cm(17)}},
                    .lengths = {{.name = "sleeve", .from = "2 * cuff", .to = "2 * cuff + slit", .aim = "most"},
                                {"hem", "sleeve + 2 * slit"},
                                {"cuff", "wrist + slit / 2"},
                                {"slit", "8 cm"}},
                    .joins = {{"sleeve into cuff", "sleeve", "cuff"}}});
  // cuff 17 + 4, sleeve at the end of its range 42 + 8, hem 50 + 16 centimetres.
  CHECK(plan.lengths[2].is.value() == Approx(210));
  CHECK(plan.lengths[3].is.value() == Approx(80));
  CHECK(plan.lengths[0].is.value() == Approx(500));
  CHECK(plan.lengths[1].is.value() == Approx(660));
}
