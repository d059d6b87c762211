// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/draft.hpp"
#include "tests/told.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>

using namespace gatherwright;
using namespace gatherwright::tests;

namespace {

Plan with_stitch(Length stitch) {
  return plan_of(Draft{.gathering = stitched(stitch), .joins = {{"n", "60 cm", "30 cm"}}});
}

/// Of cuffs, so many and of these segments.
bool told_unmirrored(int make, const std::vector<SegmentDraft> &segments, std::optional<bool> mirrored,
                     std::optional<PinMarks> marks = std::nullopt, bool closed = false) {
  const Plan plan = plan_of(Draft{.joins = {{.name = "sleeve into cuff",
                                             .long_edge = "60 cm",
                                             .band = "30 cm",
                                             .segments = segments,
                                             .closed = closed,
                                             .make = make,
                                             .mirrored = mirrored,
                                             .marks = marks}}});
  const auto *note = find<note::PairNotMirrored>(plan.notes);
  if (note != nullptr) CHECK(note->at == JoinId(0));
  return note != nullptr;
}

} // namespace

TEST_CASE("a stitch above 2 cm gets a note with its length") {
  CHECK(count<note::LongStitch>(with_stitch(cm(2)).notes) == 0);
  const Plan plan = with_stitch(mm(21));
  const auto *note = find<note::LongStitch>(plan.notes);
  REQUIRE(note != nullptr);
  CHECK(note->stitch == 21);
}

TEST_CASE("a long edge gets a note with its length where some length was a bare number") {
  const auto told = [](const std::string &length, bool bare) {
    Job job = job_of({.unit = Unit::m, .joins = {{"flounce", length, "1.6 m"}}});
    job.bare_lengths = bare;
    const Plan plan = plan_of(job);
    const auto *note = find<note::LongBareNumber>(plan.notes);
    return note == nullptr ? 0.0 : note->length;
  };
  CHECK(told("3 m", true) == 0);
  CHECK(told("4 m", false) == 0);
  CHECK(told("4 m", true) == Approx(4000));
}

TEST_CASE("an even number of pieces that differ end for end and are not mirrored gets a note") {
  const SegmentDraft flat{.kind = Kind::flat, .long_edge = "3 cm"};
  // The marks on the band are the same from both ends; those on the long edge are not.
  const SegmentDraft leaning{.spread = Shape{{{0, 1}, {1, 3}}}};
  CHECK(told_unmirrored(2, {flat, {}}, false));
  CHECK(told_unmirrored(4, {leaning}, false, PinsAtParts{4}));
  CHECK_FALSE(told_unmirrored(2, {flat, {}}, std::nullopt)); // mirrored by default
  CHECK_FALSE(told_unmirrored(3, {flat, {}}, false));
  CHECK_FALSE(told_unmirrored(2, {flat, {}, flat}, false));
  CHECK_FALSE(told_unmirrored(2, {SegmentDraft()}, false, std::nullopt, true));
}

TEST_CASE("where it is not known how supple the cloth is, ease that firm cloth would not take gets a note") {
  const auto told = [](const Fabric &cloth, const std::string &cap, const OwnLimits &limits = {}) {
    const Plan plan =
        plan_of(Draft{.fabric = cloth, .joins = {{"n", cap, "40 cm", {{.kind = Kind::ease, .limits = limits}}}}});
    const auto *note = find<note::SupplenessUnknown>(plan.notes);
    return note == nullptr ? 0.0 : note->firm;
  };
  const Fabric linen = weighing(165);
  Fabric measured = linen;
  measured.bending_length = cm(2);
  Fabric thick;
  thick.thickness = mm(0.3);
  // The most is 8 %, of which firm cloth takes 6 %: 42.4 cm into 40.
  CHECK(told(linen, "42.3 cm") == 0);
  CHECK(told(linen, "42.5 cm") == Approx(1.06));
  CHECK(told(linen, "44 cm") == 0); // too full for any cloth, and told so
  CHECK(told(measured, "42.5 cm") == 0);
  CHECK(told(linen, "42.5 cm", at_most(1.08)) == 0);
  // With no weight either, always.
  CHECK(told({}, "40.5 cm") > 1);
  CHECK(told(thick, "40.5 cm") == 0);
}

TEST_CASE("a cord in a curtain brings no caution of necks, one in a garment does") {
  const auto told = [](std::optional<Use> use) {
    const Plan plan = plan_of(Draft{
        .joins = {
            {.name = "n", .long_edge = "80 cm", .band = "40 cm", .segments = {{.kind = Kind::draw}}, .use = use}}});
    return std::find(plan.cautions.begin(), plan.cautions.end(), Caution::cord_age_unknown) != plan.cautions.end();
  };
  CHECK(told(std::nullopt));
  CHECK(told(Use::skirt)); // a cord round a child's waist wants a caution too
  CHECK_FALSE(told(Use::curtain));
}
