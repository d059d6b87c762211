// SPDX-License-Identifier: GPL-3.0-or-later
#include "made_job.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>

using namespace gatherwright;

namespace {

const Note *note_of(const Plan &plan, Note::Kind kind) {
  const auto found =
      std::find_if(plan.notes.begin(), plan.notes.end(), [kind](const Note &note) { return note.kind == kind; });
  return found == plan.notes.end() ? nullptr : &*found;
}

Plan with_stitch(const std::string &stitch) {
  return tests::plan_of(R"({ "gathering": { "stitch": ")" + stitch +
                        R"(" }, "joins": [ { "name": "n", "long": "60 cm", "band": "30 cm" } ] })");
}

/// Two cuffs, as the rest of the join has it.
bool told_unmirrored(const std::string &rest) {
  const Plan plan = tests::plan_of(R"({ "joins": [ { "name": "sleeve into cuff", "long": "60 cm", "band": "30 cm", )" +
                                   rest + " } ] }");
  const Note *note = note_of(plan, Note::Kind::pair_not_mirrored);
  if (note != nullptr) CHECK(note->join == 0);
  return note != nullptr;
}

} // namespace

TEST_CASE("a stitch above 2 cm gets a note with its length") {
  CHECK(note_of(with_stitch("2 cm"), Note::Kind::stitch_long) == nullptr);
  const Plan plan = with_stitch("21 mm");
  const Note *note = note_of(plan, Note::Kind::stitch_long);
  REQUIRE(note != nullptr);
  CHECK(note->value == 21);
}

TEST_CASE("an even number of pieces that differ end for end and are not mirrored gets a note") {
  const std::string flat_first = R"("segments": [ { "kind": "flat", "long": "3 cm" }, {} ])";
  const std::string flat_both =
      R"("segments": [ { "kind": "flat", "long": "3 cm" }, {}, { "kind": "flat", "long": "3 cm" } ])";
  // The marks on the band are the same from both ends; those on the long edge are not.
  const std::string leaning = R"("marks": { "parts": 4 }, "segments": [ { "spread": { "shape": [[0, 1], [1, 3]] } } ])";
  CHECK(told_unmirrored(R"("make": 2, "mirrored": false, )" + flat_first));
  CHECK(told_unmirrored(R"("make": 4, "mirrored": false, )" + leaning));
  CHECK_FALSE(told_unmirrored(R"("make": 2, )" + flat_first)); // mirrored by default
  CHECK_FALSE(told_unmirrored(R"("make": 3, "mirrored": false, )" + flat_first));
  CHECK_FALSE(told_unmirrored(R"("make": 2, "mirrored": false, )" + flat_both));
  CHECK_FALSE(told_unmirrored(R"("make": 2, "mirrored": false, "closed": true)"));
}
