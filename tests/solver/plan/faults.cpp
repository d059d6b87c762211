// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/plan/planner.hpp"
#include "tests/draft.hpp"
#include "tests/told.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

using namespace gatherwright;
using namespace gatherwright::tests;

// Faults that show only in planning, each with its place and both its halves.

namespace {

struct Told {
  Draft job;
  const char *place;
  const char *what;
  const char *instead;
};

} // namespace

TEST_CASE("a job that reads and cannot be planned is at fault at the place that is wrong") {
  const std::vector<Told> all{
      {Draft{
           .joins = {{.name = "hem", .long_edge = DrawnEdge{.path = "M 0 0 H 300"}, .band = "20 cm", .closed = true}}},
       "join 0, long", "the join is closed and this path is open", "end the path with z, or leave out \"closed\""},
      {Draft{.joins = {{"hem", "62 cm", DrawnEdge{.path = "M 0 0 H 100 V 50 Z"}}}}, "join 0, band",
       "this path is closed and the join is not", "leave out the z, or write \"closed\": true"},
      {Draft{.joins = {{"hem", DrawnEdge{.path = "M 0 0 X"}, "20 cm"}}}, "join 0, long",
       "the path goes wrong at byte 6: \"X\" where a command is expected", "the commands are M L H V C S Q T A Z"},
      {Draft{.joins = {{"hem", DrawnEdge{.path = "M 0 0 z"}, "20 cm"}}}, "join 0, long", "the path draws nothing",
       "a line or a curve with some length"},
      {Draft{.joins = {{.name = "hem",
                        .long_edge =
                            DrawnEdge{.path = "M 0 0 H 300 H 0 Z", .allowance = cm(1), .garment = Garment::inside},
                        .band = "20 cm",
                        .closed = true}}},
       "join 0, long", "the drawn edge encloses nothing", "\"left\" or \"right\""},
      {Draft{.joins = {{"cuff",
                        "40 cm",
                        "20 cm",
                        {{.kind = Kind::flat, .long_edge = "2 cm"}, {.spread = Fade{{cm(12), cm(6.5)}}}}}}},
       "join 0, segment 1, spread", "the fade takes 18.5 cm of a band of 18 cm",
       "fade over no more than the segment's band"},
      {Draft{.joins =
                 {{"cap", DrawnEdge{.path = "M 0 0 V 300"}, "29 cm", {{.kind = Kind::ease, .spread = AlongGrain{}}}}}},
       "join 0, segment 0, spread", "this stretch lies wholly along the threads and shears nowhere",
       "spread it \"even\""},
      {Draft{.lengths = {{"cuff"}}, .rules = {"cuff <= 0 cm"}, .joins = {{"sleeve", "40 cm", "cuff"}}}, "join 0, band",
       "the band of sleeve comes out as nothing", "give it a length"},
      {Draft{.joins = {{"sleeve", "40 cm", "20 cm", {{.band = "20 cm"}, {.name = "back"}}}}}, "join 0, segment 1",
       "no band is left for sleeve, segment back", "make its band longer, the others shorter, or leave it out"},
      {Draft{.joins = {{.name = "frill", .long_edge = "40 m", .band = "20 m", .marks = PinsApart{mm(1), false}}}},
       "join 0", "frill would get more than 10000 marks", "set them further apart"},
  };
  for (const Told &told : all) {
    INFO(told.what);
    const PlanOutcome outcome = plan(job_of(told.job));
    const auto *faults = std::get_if<std::vector<PlacedFault>>(&outcome);
    REQUIRE(faults != nullptr);
    REQUIRE(faults->size() == 1);
    const PlacedFault &fault = faults->front();
    CHECK(path_of(fault.place) == told.place);
    CHECK(fault.fault.what == told.what);
    CHECK(fault.fault.instead == told.instead);
  }
}

TEST_CASE("segments that nothing settles are named") {
  // A second flat segment without a length is refused before anything is planned.
  Job job = job_of(Draft{.joins = {{"neck",
                                    "30 cm",
                                    "20 cm",
                                    {{.long_edge = "20 cm", .band = "10 cm"},
                                     {.kind = Kind::flat, .long_edge = "4 cm"},
                                     {.name = "back", .kind = Kind::flat, .long_edge = "6 cm"}}}}});
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
  Job job = job_of(Draft{.measures = {{"arm", cm(60)}, {"wrist", cm(17)}},
                         .lengths = {{"edge", "20 cm * arm / wrist"}},
                         .joins = {{"j", "edge", "25 cm"}}});
  job.measures[1].is.mm = 0;
  const PlanOutcome outcome = plan(job);
  const auto *faults = std::get_if<std::vector<PlacedFault>>(&outcome);
  REQUIRE(faults != nullptr);
  REQUIRE(faults->size() == 1);
  CHECK(path_of(faults->front().place) == "length 0, is");
  CHECK(faults->front().fault.what.find("divides by 0") != std::string::npos);
}
