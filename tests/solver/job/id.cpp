// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/draft.hpp"

#include <stdexcept>
#include <type_traits>

using namespace gatherwright;
using namespace gatherwright::tests;

namespace {

Job two_joins() {
  return job_of({.fabric = weighing(165, cm(140)),
                 .measures = {{"wrist", cm(17)}, {"hand", cm(22)}},
                 .lengths = {{"cuff", "wrist + 3 cm"}, {.name = "sleeve", .to = "cloth_width / 4", .aim = "most"}},
                 .rules = {"cuff <= hand"},
                 .joins = {{"sleeve into cuff", "sleeve", "cuff", {{.kind = Kind::flat, .long_edge = "2 cm"}, {}}},
                           {"frill", "90 cm", "40 cm"}}});
}

} // namespace

TEST_CASE("an id is never taken for one of another thing, nor a number for an id") {
  STATIC_REQUIRE_FALSE(std::is_constructible_v<JoinId, LengthId>);
  STATIC_REQUIRE_FALSE(std::is_constructible_v<LengthId, MeasureId>);
  STATIC_REQUIRE_FALSE(std::is_constructible_v<RuleId, JoinId>);
  STATIC_REQUIRE_FALSE(std::is_convertible_v<int, JoinId>);
  STATIC_REQUIRE_FALSE(std::is_convertible_v<JoinId, int>);
  STATIC_REQUIRE_FALSE(std::is_constructible_v<SegmentAt, int, int>);
  STATIC_REQUIRE_FALSE(std::is_constructible_v<EdgeAt, JoinId, int>);
  STATIC_REQUIRE(std::is_constructible_v<JoinId, int>);
}

TEST_CASE("symbols stand for the measures, then the lengths, then the cloth's width") {
  const Job job = two_joins();
  CHECK(job.symbol_of(MeasureId(0)) == 0);
  CHECK(job.symbol_of(MeasureId(1)) == 1);
  CHECK(job.symbol_of(LengthId(0)) == 2);
  CHECK(job.symbol_of(LengthId(1)) == 3);
  CHECK(job.symbol_of_cloth_width() == 4);
  CHECK(job.symbols() == 5);
  for (int symbol = -1; symbol <= job.symbols(); ++symbol) {
    const auto length = job.length_of(symbol);
    CHECK(length.has_value() == (symbol == 2 || symbol == 3));
    if (length) CHECK(job.symbol_of(*length) == symbol);
  }
  // So are they read where a job is planned: 17 + 3 cm, and a quarter of 140 cm.
  const Plan plan = plan_of(job);
  CHECK(plan.lengths[0].is == 200.0);
  CHECK(plan.lengths[1].is == 350.0);
}

TEST_CASE("an id gives the thing that it counts to, and throws std::out_of_range where there is none") {
  const Job job = two_joins();
  CHECK(job[MeasureId(1)].name == "hand");
  CHECK(job[LengthId(1)].name == "sleeve");
  CHECK(job[RuleId(0)].name == "cuff <= hand");
  CHECK(job[JoinId(1)].name == "frill");
  CHECK(job[SegmentAt(JoinId(0), 0)].kind == Kind::flat);
  CHECK(job[EdgeAt(JoinId(1), WhichEdge::long_edge)].formula()->written() == "90 cm");
  CHECK(job[EdgeAt(JoinId(1), WhichEdge::band)].formula()->written() == "40 cm");
  CHECK_THROWS_AS(job[MeasureId(2)], std::out_of_range);
  CHECK_THROWS_AS(job[LengthId(-1)], std::out_of_range);
  CHECK_THROWS_AS(job[RuleId(1)], std::out_of_range);
  CHECK_THROWS_AS(job[JoinId(2)], std::out_of_range);
  CHECK_THROWS_AS(job[SegmentAt(JoinId(1), 1)], std::out_of_range);
  CHECK_THROWS_AS(job[EdgeAt(JoinId(2), WhichEdge::band)], std::out_of_range);
}
