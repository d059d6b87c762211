// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/defaults.hpp"

#include "tests/draft.hpp"

#include <catch2/catch.hpp>

using namespace gatherwright;

TEST_CASE("defaults go by the tape of the job's unit") {
  for (const Unit unit : {Unit::mm, Unit::cm, Unit::m}) {
    CHECK(default_tape_step(unit).mm == 1);
    CHECK(std::get<PinsApart>(default_pin_marks(unit)).most.steps().front().value == 60);
  }
  for (const Unit unit : {Unit::in, Unit::ft, Unit::yd}) {
    CHECK(default_tape_step(unit).mm * 8 == 25.4);
    CHECK(std::get<PinsApart>(default_pin_marks(unit)).most.steps().front().value == 63.5);
  }
  CHECK(mirrored_by_default(2));
  CHECK(!mirrored_by_default(3));
}

TEST_CASE("a length is kept where its own formula names a measure") {
  const Job job = tests::job_of({.measures = {{"neck", tests::cm(39)}, {"wrist", tests::cm(17)}},
                                 .lengths = {{"ease", "2 cm"},
                                             {"collar", "neck + ease"},
                                             {"double", "2 * collar"},
                                             {"cuff", "max(wrist, 20 cm)"}},
                                 .joins = {{"n", "80 cm", "collar"}}});
  std::vector<bool> kept;
  for (const NamedLength &length : job.lengths)
    kept.push_back(kept_by_default(job, *length.fixed()));
  CHECK(kept == std::vector{false, true, false, true});
}
