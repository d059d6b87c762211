// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/planner.hpp"
#include "tests/made_job.hpp"
#include "tests/told.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

using namespace gatherwright;

// Faults that show only in planning, each with its place and both its halves.

namespace {

struct Told {
  const char *job;
  const char *place;
  const char *what;
  const char *instead;
};

} // namespace

TEST_CASE("a job that reads and cannot be planned is at fault at the place that is wrong") {
  const std::vector<Told> all{
      {R"({ "joins": [ { "name": "hem", "closed": true, "long": { "path": "M 0 0 H 300" }, "band": "20 cm" } ] })",
       "join 0, long", "the join is closed and this path is open", "end the path with z, or leave out \"closed\""},
      {R"({ "joins": [ { "name": "hem", "long": "62 cm", "band": { "path": "M 0 0 H 100 V 50 Z" } } ] })",
       "join 0, band", "this path is closed and the join is not", "leave out the z, or write \"closed\": true"},
      {R"({ "joins": [ { "name": "hem", "long": { "path": "M 0 0 X" }, "band": "20 cm" } ] })", "join 0, long",
       "the path goes wrong at byte 6: \"X\" where a command is expected", "the commands are M L H V C S Q T A Z"},
      {R"({ "joins": [ { "name": "hem", "long": { "path": "M 0 0 z" }, "band": "20 cm" } ] })", "join 0, long",
       "the path draws nothing", "a line or a curve with some length"},
      {R"({ "joins": [ { "name": "hem", "closed": true, "band": "20 cm",
          "long": { "path": "M 0 0 H 300 H 0 Z", "garment": "inside", "allowance": "1 cm" } } ] })",
       "join 0, long", "the drawn edge encloses nothing", "\"left\" or \"right\""},
      {R"({ "joins": [ { "name": "cuff", "long": "40 cm", "band": "20 cm",
          "segments": [ { "kind": "flat", "long": "2 cm" }, { "spread": { "fade": ["12 cm", "6.5 cm"] } } ] } ] })",
       "join 0, segment 1, spread", "the fade takes 18.5 cm of a band of 18 cm",
       "fade over no more than the segment's band"},
      {R"({ "joins": [ { "name": "cap", "long": { "path": "M 0 0 V 300" }, "band": "29 cm",
          "segments": [ { "kind": "ease", "spread": "grain" } ] } ] })",
       "join 0, segment 0, spread", "this stretch lies wholly along the threads and shears nowhere",
       "spread it \"even\""},
      {R"({ "lengths": { "cuff": {} }, "rules": [ "cuff <= 0 cm" ],
          "joins": [ { "name": "sleeve", "long": "40 cm", "band": "cuff" } ] })",
       "join 0, band", "the band of sleeve comes out as nothing", "give it a length"},
      {R"({ "joins": [ { "name": "sleeve", "long": "40 cm", "band": "20 cm",
          "segments": [ { "band": "20 cm" }, { "name": "back" } ] } ] })",
       "join 0, segment 1", "no band is left for sleeve, segment back",
       "make its band longer, the others shorter, or leave it out"},
      {R"({ "joins": [ { "name": "frill", "long": "40 m", "band": "20 m", "marks": { "apart": "1 mm" } } ] })",
       "join 0", "frill would get more than 10000 marks", "set them further apart"},
  };
  for (const Told &told : all) {
    INFO(told.job);
    const PlanOutcome outcome = plan(tests::job_of(told.job));
    const auto *faults = std::get_if<std::vector<PlacedFault>>(&outcome);
    REQUIRE(faults != nullptr);
    REQUIRE(faults->size() == 1);
    const PlacedFault &fault = faults->front();
    CHECK(tests::path_of(fault.place) == told.place);
    CHECK(fault.fault.what == told.what);
    CHECK(fault.fault.instead == told.instead);
  }
}

TEST_CASE("segments that nothing settles are named") {
  // A second flat segment without a length is refused before anything is planned.
  Job job = tests::job_of(R"({ "joins": [ { "name": "neck", "long": "30 cm", "band": "20 cm", "segments": [
    { "long": "20 cm", "band": "10 cm" }, { "kind": "flat", "long": "4 cm" },
    { "name": "back", "kind": "flat", "long": "6 cm" } ] } ] })");
  job.joins[0].segments[1].long_edge.reset();
  job.joins[0].segments[2].long_edge.reset();
  const PlanOutcome outcome = plan_numbers(job, {});
  const auto *faults = std::get_if<std::vector<PlacedFault>>(&outcome);
  REQUIRE(faults != nullptr);
  const auto unsettled = std::find_if(faults->begin(), faults->end(), [](const PlacedFault &fault) {
    return fault.fault.what.starts_with("neck: nothing settles how long these segments are: ");
  });
  REQUIRE(unsettled != faults->end());
  const auto *place = std::get_if<place::InSegment>(&unsettled->place);
  REQUIRE(place != nullptr);
  CHECK(place->at.join == JoinId(0));
  CHECK(place->at.segment >= 1); // the one given is settled
  CHECK(unsettled->fault.what.ends_with("back"));
  CHECK(unsettled->fault.instead == "give one of them a long or a band");
}

TEST_CASE("a formula that a job's own measures, altered since it was read, leave no value is at fault in its place") {
  Job job = tests::job_of(R"({ "measures": { "arm": "60 cm", "wrist": "17 cm" },
    "lengths": { "edge": "20 cm * arm / wrist" }, "joins": [ { "name": "j", "long": "edge", "band": "25 cm" } ] })");
  job.measures[1].is.mm = 0;
  const PlanOutcome outcome = plan(job);
  const auto *faults = std::get_if<std::vector<PlacedFault>>(&outcome);
  REQUIRE(faults != nullptr);
  REQUIRE(faults->size() == 1);
  CHECK(tests::path_of(faults->front().place) == "length 0, is");
  CHECK(faults->front().fault.what.find("divides by 0") != std::string::npos);
}
