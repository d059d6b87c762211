// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/made_job.hpp"
#include "tests/told.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>

using namespace gatherwright;

namespace {

Plan with_stitch(const std::string &stitch) {
  return tests::plan_of(R"({ "gathering": { "stitch": ")" + stitch +
                        R"(" }, "joins": [ { "name": "n", "long": "60 cm", "band": "30 cm" } ] })");
}

/// Two cuffs, as the rest of the join has it.
bool told_unmirrored(const std::string &rest) {
  const Plan plan = tests::plan_of(R"({ "joins": [ { "name": "sleeve into cuff", "long": "60 cm", "band": "30 cm", )" +
                                   rest + " } ] }");
  const auto *note = tests::find<note::PairNotMirrored>(plan.notes);
  if (note != nullptr) CHECK(note->at == JoinId(0));
  return note != nullptr;
}

} // namespace

TEST_CASE("a stitch above 2 cm gets a note with its length") {
  CHECK(tests::count<note::LongStitch>(with_stitch("2 cm").notes) == 0);
  const Plan plan = with_stitch("21 mm");
  const auto *note = tests::find<note::LongStitch>(plan.notes);
  REQUIRE(note != nullptr);
  CHECK(note->stitch == 21);
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

TEST_CASE("where it is not known how supple the cloth is, ease that firm cloth would not take gets a note") {
  const auto told = [](const std::string &fabric, const std::string &cap, const std::string &segment = {}) {
    const Plan plan =
        tests::plan_of(R"({ "fabric": { )" + fabric + R"( }, "joins": [ { "name": "n", "long": ")" + cap +
                       R"( cm", "band": "40 cm", "segments": [ { "kind": "ease" )" + segment + " } ] } ] }");
    const auto *note = tests::find<note::SupplenessUnknown>(plan.notes);
    return note == nullptr ? 0.0 : note->firm;
  };
  const std::string linen = R"("weight": "165 g/m2")";
  // The most is 8 %, of which firm cloth takes 6 %: 42.4 cm into 40.
  CHECK(told(linen, "42.3") == 0);
  CHECK(told(linen, "42.5") == Approx(1.06));
  CHECK(told(linen, "44") == 0); // too full for any cloth, and told so
  CHECK(told(linen + R"(, "bending_length": "2 cm")", "42.5") == 0);
  CHECK(told(linen, "42.5", R"(, "limits": { "most": 1.08 })") == 0);
  // With no weight either, always.
  CHECK(told("", "40.5") > 1);
  CHECK(told(R"("thickness": "0.3 mm")", "40.5") == 0);
}

TEST_CASE("a cord in a curtain brings no caution of necks, one in a garment does") {
  const auto told = [](const std::string &use) {
    const Plan plan = tests::plan_of(R"({ "joins": [ { "name": "n", "long": "80 cm", "band": "40 cm")" + use +
                                     R"(, "segments": [ { "kind": "draw" } ] } ] })");
    return std::find(plan.cautions.begin(), plan.cautions.end(), Caution::cord_age_unknown) != plan.cautions.end();
  };
  CHECK(told(""));
  CHECK(told(R"(, "use": "skirt")")); // a cord round a child's waist wants a caution too
  CHECK_FALSE(told(R"(, "use": "curtain")"));
}
