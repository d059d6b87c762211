// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/refusal.hpp"

#include "tests/told.hpp"

#include <catch2/catch.hpp>

using namespace gatherwright;
using namespace gatherwright::tests;

TEST_CASE("a refusal is in the place that could be written otherwise") {
  const JoinId join(2);
  const SegmentAt segment(join, 1);
  const EdgeAt band(join, WhichEdge::band);
  const auto place = [](const Refusal &refusal) { return path_of(place_of(refusal)); };
  CHECK(place(PlacedFault{place::InRule{RuleId(3)}, {"what", "instead"}}) == "rule 3");
  CHECK(place(refusal::Undrawable{.at = band, .why = refusal::Undrawable::Why::open}) == "join 2, band");
  CHECK(place(refusal::NoPart{.at = band, .from = 1, .to = 30, .stitching = 20}) == "join 2, band, part");
  CHECK(place(refusal::NoStitchingLine{.at = band, .why = refusal::NoStitchingLine::Why::too_tight}) == "join 2, band");
  CHECK(place(refusal::NoBand{join}) == "join 2, band");
  CHECK(place(refusal::NoBand{segment}) == "join 2, segment 1");
  CHECK(place(refusal::Unsettled{join, {1, 4}}) == "join 2, segment 1");
  CHECK(place(refusal::TooManyMarks{join, 10}) == "join 2");
  CHECK(place(refusal::FadeTooLong{.at = segment}) == "join 2, segment 1, spread");
  CHECK(place(refusal::NoShear{segment}) == "join 2, segment 1, spread");
  const std::string whole = path_of(place::WholeJob{});
  CHECK(place(refusal::TooMuch{refusal::TooMuch::Of::steps, 1}) == whole);
  CHECK(place(refusal::Indistinct{}) == whole);
  // Of two conditions the second: the first is what the job said before.
  const Condition first = condition::Holds{RuleId(0)};
  CHECK(place(refusal::Indistinct{{{first, condition::Holds{RuleId(1)}}}}) == "rule 1");
  CHECK(place(refusal::Indistinct{{{first, condition::InRange{LengthId(4), condition::InRange::End::to}}}}) ==
        "length 4");
  CHECK(place(refusal::Indistinct{{{first, condition::AddsUp{band}}}}) == "join 2");
  CHECK(place(refusal::Indistinct{{{first, condition::Flat{segment}}}}) == "join 2, segment 1");
  CHECK(place(refusal::Indistinct{{{first, condition::Given{segment, WhichEdge::band}}}}) == "join 2, segment 1");
}
