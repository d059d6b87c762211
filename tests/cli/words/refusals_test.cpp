// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/refusals.hpp"

#include "solver/plan/planner.hpp"
#include "tests/draft.hpp"
#include "tests/told.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

using namespace gatherwright;
using namespace gatherwright::tests;

// Why there is no plan of a job that reads, with its place and both its halves.

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
    const Job job = job_of(told.job);
    const Refusals refusals = refusals_of(plan(job));
    REQUIRE(refusals.size() == 1);
    CHECK(path_of(place_of(refusals[0])) == told.place);
    const Fault fault = words::refusal(job, refusals[0]);
    CHECK(fault.what == told.what);
    CHECK(fault.instead == told.instead);
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
  const Refusals refusals = refusals_of(plan_numbers(job, {}));
  const auto unsettled = std::find_if(refusals.begin(), refusals.end(), [](const Refusal &refusal) {
    return std::holds_alternative<refusal::Unsettled>(refusal);
  });
  REQUIRE(unsettled != refusals.end());
  CHECK(path_of(place_of(*unsettled)).starts_with("join 0, segment "));
  CHECK(std::get<refusal::Unsettled>(*unsettled).segments.front() >= 1); // the one given is settled
  const Fault fault = words::refusal(job, *unsettled);
  CHECK(fault.what.starts_with("neck: nothing settles how long these segments are: "));
  CHECK(fault.what.ends_with("back"));
  CHECK(fault.instead == "give one of them a long or a band");
}

TEST_CASE("a fault has the beginning of a long name, and still its end") {
  std::string name;
  for (int i = 0; i < 5000; ++i)
    name += "é";
  const Job job = job_of({.joins = {{name, "40 cm", "20 cm", {{.band = "20 cm"}, {.name = name}}}}});
  const Refusals refusals = refusals_of(plan_numbers(job, {}));
  REQUIRE(refusals.size() == 1);
  const std::string begins = name.substr(0, 200) + "…";
  CHECK(words::refusal(job, refusals[0]).what == "no band is left for " + begins + ", segment " + begins);
}

TEST_CASE("conditions that say nearly the same are both told by name") {
  const Job job = job_of(Draft{.lengths = {{.name = "x", .aim = "30 cm"}, {.name = "y", .aim = "40 cm"}},
                               .rules = {"x + y = 60 cm", "1.000000000001 * x + y = 70 cm"},
                               .joins = {{"a", "x", "12 cm"}, {"b", "y", "15 cm"}}});
  const std::string told = words::refusal(job, only_refusal<refusal::Indistinct>(plan(job))).what;
  CHECK(told.find("x + y = 60 cm") != std::string::npos);
  CHECK(told.find("1.000000000001 * x + y = 70 cm") != std::string::npos);
}

TEST_CASE("what is bounded is told with its bound") {
  const Job job = job_of(Draft{.joins = {{"hem", "40 cm", "20 cm"}}});
  const auto told = [&job](const Refusal &refusal) {
    const Fault fault = words::refusal(job, refusal);
    return fault.what + "; " + fault.instead;
  };
  const JoinId hem(0);
  const EdgeAt edge(hem, WhichEdge::long_edge);
  using Why = refusal::Undrawable::Why;
  using Of = refusal::TooMuch::Of;
  CHECK(told(refusal::TooManyMarks{hem, 1'200'000, true}) ==
        "up to hem the job would get more than 1200000 marks in all, those of mirrored pieces counted too; set them "
        "further apart, or plan fewer joins in one job");
  CHECK(told(refusal::Undrawable{.at = edge, .why = Why::too_many_bends, .most = 100'000}) ==
        "the edges to be eased or spread by the grain bend too often: their shear has more than 100000 pieces; draw "
        "them with fewer curves, or spread it \"even\"");
  CHECK(told(refusal::Undrawable{.at = edge, .why = Why::too_many_pieces, .most = 300'000}) ==
        "with this path the drawn edges have more than 300000 lines and curves; draw them with fewer");
  CHECK(told(refusal::Undrawable{.at = edge, .why = Why::no_side}) ==
        "an allowance with nothing to say on which side the garment lies; \"garment\": \"left\" or \"right\"");
  CHECK(told(refusal::Undrawable{.at = edge, .why = Why::no_inside}) ==
        "the drawn edge is open and has no inside; \"left\" or \"right\", or close the path with Z");
  CHECK(told(refusal::Undrawable{.at = edge, .why = Why::allowance_too_large, .allowance = 1e6}) ==
        "an allowance of 1000000 mm is beyond any edge; a smaller one");
  CHECK(told(refusal::TooMuch{Of::steps, 500'000'000'000}) ==
        "this job takes more than 500000 million steps to work out; fix some of its lengths, or plan it in parts");
  CHECK(told(refusal::TooMuch{Of::lengths, 1000}) ==
        "more than 1000 lengths to be found hang together in this job; fix some of its lengths, or plan it in parts");
  CHECK(told(refusal::TooMuch{Of::conditions, 4000}) ==
        "more than 4000 conditions of this job come to bind at once; fix some of its lengths, or plan it in parts");
  CHECK(told(refusal::TooMuch{Of::numbers, 40'000'000}) ==
        "so many segments and lengths to be found meet in this job that more than 40 million numbers would have to be "
        "kept; fix some of its lengths, or plan it in parts");
}

TEST_CASE("every way in which a stitching line can fail says what would be right") {
  struct Told {
    const char *path;
    double allowance;
    Garment garment;
    const char *what, *instead;
  };
  std::string teeth = "M0 0";
  for (int i = 0; i < 4000; ++i)
    teeth += "l5 9l5-9";
  for (const Told &told : std::vector<Told>{
           {"M0 0 L100 100 V0 L0 100", 5, Garment::left,
            "the drawn edge crosses or touches itself, 70.7 mm along the drawn edge",
            "an edge that does not, where there is an allowance"},
           {"M0 0H5V100", 10, Garment::right,
            "an allowance of 10 mm does not fit inside the curve or corner 5 mm along the drawn edge",
            "a smaller allowance, or a rounder edge there"},
           {"M0 0H50H20", 5, Garment::right,
            "the edge turns right round 50 mm along the drawn edge, and the stitching line cannot follow it",
            "a point with some angle to it"},
           {"M0 0H100V45H110V0H210V100H110V55H100V100H0Z", 8, Garment::right,
            "an allowance of 8 mm leaves the stitching line in pieces, about 145 mm along the drawn edge",
            "a smaller allowance, or a wider neck there"},
           {"M0 0H100V60H50V5", 10, Garment::right, "the stitching line runs over itself or the cut edge",
            "a smaller allowance, or the garment on the other side"},
           {"M0 0H100V15H0Z", 10, Garment::right,
            "an allowance of 10 mm leaves nothing of the drawn edge to stitch along",
            "a smaller allowance, or the garment on the other side"},
           {teeth.c_str(), 2000, Garment::left, "the drawn edge is too tangled for a stitching line",
            "fewer crossings"}}) {
    CAPTURE(told.path);
    const std::string path = told.path;
    const Job job = job_of(
        Draft{.joins = {{.name = "hem",
                         .long_edge = DrawnEdge{.path = path, .allowance = mm(told.allowance), .garment = told.garment},
                         .band = "2 cm",
                         .closed = path.ends_with("Z")}}});
    const Refusals refusals = refusals_of(plan(job));
    REQUIRE(refusals.size() == 1);
    CHECK(path_of(place_of(refusals[0])) == "join 0, long");
    const Fault fault = words::refusal(job, refusals[0]);
    CHECK(fault.what.starts_with(told.what));
    CHECK(fault.instead == told.instead);
  }
}

TEST_CASE("a formula that a job's own measures, altered since it was read, leave no value is at fault in its place") {
  Job job = job_of(Draft{.measures = {{"arm", cm(60)}, {"wrist", cm(17)}},
                         .lengths = {{"edge", "20 cm * arm / wrist"}},
                         .joins = {{"j", "edge", "25 cm"}}});
  job.measures[1].is.mm = 0;
  const auto fault = only_refusal<PlacedFault>(plan(job));
  CHECK(path_of(fault.place) == "length 0, is");
  CHECK(fault.fault.what.find("divides by 0") != std::string::npos);
}
