// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/validate.hpp"

#include "gatherwright/bounds.hpp"
#include "gatherwright/plan.hpp"
#include "tests/hostile_values.hpp"
#include "tests/outcomes.hpp"
#include "tests/planned.hpp"
#include "tests/told.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>
#include <limits>
#include <random>

using namespace gatherwright;

namespace {

using Code = Formula::Code;

constexpr double no_number = std::numeric_limits<double>::quiet_NaN();
constexpr double infinity = std::numeric_limits<double>::infinity();

// Symbols of the good job.
constexpr int wrist = 0;
constexpr int cuff = 1;
constexpr int sleeve = 2;
constexpr int cloth_width = 3;
constexpr int beyond = 4;

Formula mm(double length) {
  return Formula::of({length}, "a length");
}

Formula symbol(int number) {
  return Formula::of_symbol(number, "a symbol");
}

Formula program(std::vector<Formula::Step> steps) {
  return Formula::of_steps(std::move(steps), "a formula").value();
}

Join sleeve_into_cuff() {
  Join join;
  join.name = "sleeve into cuff";
  join.long_edge.is = symbol(sleeve);
  join.band.is = symbol(cuff);
  join.band.ends = {Length{10}, Length{10}};
  join.marks = PinsAtParts{.parts = 4};
  Segment placket;
  placket.name = "placket";
  placket.kind = Kind::flat;
  placket.long_edge = mm(30);
  placket.to = "notch";
  Segment gathers;
  gathers.name = "gathers";
  gathers.limits = {1.25, 2, 3};
  gathers.spread = Fade{{Length{20}, Length{30}}};
  join.segments = {placket, gathers};
  return join;
}

Join cap_into_armhole() {
  Join join;
  join.name = "cap into armhole";
  join.long_edge.is =
      DrawnEdge{.path = "M 0 0 C 100 80 200 -80 300 0", .allowance = Length{10}, .garment = Garment::left};
  join.band.is = mm(310);
  Segment ease;
  ease.kind = Kind::ease;
  ease.limits.most = 1.1;
  ease.spread = AlongGrain{};
  join.segments = {ease};
  return join;
}

/// A job as a program makes it, with something of everything.
Job good_job() {
  Job job;
  job.title = "shirt";
  job.fabric.weight = Weight{165};
  job.fabric.width = Length{1400};
  job.wearer_age = 34;
  job.measures = {{"wrist", Length{170}}};
  job.lengths = {{.name = "cuff", .is = program({{Code::symbol, 0, wrist}, {Code::length, 50}, {Code::add}})},
                 {.name = "sleeve", .is = FreeLength{.from = mm(450), .to = mm(600), .aim = mm(500)}}};
  job.rules = {{"two sleeves fit", {symbol(sleeve), Relation::at_most, symbol(cloth_width)}}};
  job.joins = {sleeve_into_cuff(), cap_into_armhole()};
  return job;
}

Segment &gathers(Job &job) {
  return job.joins[0].segments[1];
}
Fabric &cloth(Job &job) {
  return job.joins[0].fabric;
}
DrawnEdge &cap(Job &job) {
  return std::get<DrawnEdge>(job.joins[1].long_edge.is);
}
FreeLength &range(Job &job) {
  return std::get<FreeLength>(job.lengths[1].is);
}
Swatch good_swatch() {
  return {Length{300}, Length{40}, std::array{Length{100}, Length{200}}, Length{4}};
}
void take_swatch(Job &job, const std::function<void(Swatch &)> &change) {
  Swatch swatch = good_swatch();
  change(swatch);
  cloth(job).swatch = swatch;
}
void take_shape(Job &job, std::vector<std::array<double, 2>> points) {
  gathers(job).spread = Shape{std::move(points)};
}
void take_threads(Job &job, CountedThreads threads, double stitch) {
  job.joins[0].gathering.threads = threads;
  job.joins[0].gathering.stitch = Length{stitch};
}

/// One change of the good job, and the one fault that it has then.
struct Row {
  const char *place;
  const char *what;
  std::function<void(Job &)> change;
};

void check(const std::vector<Row> &rows) {
  for (const Row &row : rows) {
    INFO(row.place << ": " << row.what);
    Job job = good_job();
    row.change(job);
    const std::vector<PlacedFault> faults = validate(job);
    REQUIRE(!faults.empty());
    CHECK(faults.size() == 1);
    CHECK(tests::path_of(faults[0].place) == row.place);
    CHECK(faults[0].fault.what == row.what);
    CHECK(!faults[0].fault.instead.empty());
    const auto prepared = Prepared::prepare(job);
    const PlanOutcome planned = plan(job);
    CHECK(tests::only_refusal<PlacedFault>(planned).fault == faults[0].fault);
    CHECK(tests::only_refusal<PlacedFault>(prepared).fault == faults[0].fault);
  }
}

} // namespace

TEST_CASE("a job made by a program, with something of everything, has no fault and is planned") {
  CHECK(validate(good_job()).empty());
  CHECK(tests::plan_of(good_job()).joins.size() == 2);
}

TEST_CASE("what a job says of itself is at fault where it is none of what it may be") {
  check({
      {"title", "the title is not UTF-8", [](Job &job) { job.title = "\xff"; }},
      {"title", "the title has a line break or control character in it", [](Job &job) { job.title = "a\nb"; }},
      {"title", "the title has a line break or control character in it", [](Job &job) { job.title = "a\xc2\x85"; }},
      {"unit", "this is no unit that a job is in", [](Job &job) { job.unit = Unit::ell; }},
      {"unit", "this is no unit that a job is in", [](Job &job) { job.unit = static_cast<Unit>(-7); }},
      {"tape step", "the step of the tape comes to 0", [](Job &job) { job.tape_step = {}; }},
      {"tape step", "the step of the tape is no number", [](Job &job) { job.tape_step = {no_number}; }},
      {"fabric", "the weight of the cloth is 0 g/m2", [](Job &job) { job.fabric.weight = Weight{}; }},
      {"gathering", "the stitch is shorter than 0.1 mm", [](Job &job) { job.gathering.stitch = {0.09}; }},
      {"tolerance", "the tolerance of cutting comes to -0.1 cm", [](Job &job) { job.tolerance.cut = {-1}; }},
      {"tolerance", "the tolerance of marking is no number", [](Job &job) { job.tolerance.mark = {no_number}; }},
      {"wearer's age", "the age is 151", [](Job &job) { job.wearer_age = 151; }},
      {"wearer's age", "the age is nan", [](Job &job) { job.wearer_age = no_number; }},
      {"", "there is no join", [](Job &job) { job.joins.clear(); }},
  });
}

TEST_CASE("measures, lengths and rules are at fault by their names, their figures and what they name") {
  check({
      {"measure 0", "a name is empty", [](Job &job) { job.measures[0].name = ""; }},
      {"measure 0", "this is not UTF-8 text", [](Job &job) { job.measures[0].name = "\xff"; }},
      {"measure 0", "the measure comes to -1 cm", [](Job &job) { job.measures[0].is = {-10}; }},
      {"measure 0", "the measure is no number", [](Job &job) { job.measures[0].is = {no_number}; }},
      {"measure 0", "the measure comes to more than 100 km", [](Job &job) { job.measures[0].is = {infinity}; }},
      {"length 0", "\"cuff of it\": a name has no spaces", [](Job &job) { job.lengths[0].name = "cuff of it"; }},
      {"length 1", "pi is the number", [](Job &job) { job.lengths[1].name = "pi"; }},
      {"length 1", "the name cuff is used twice", [](Job &job) { job.lengths[1].name = "cuff"; }},
      {"length 0", "the name wrist is used twice", [](Job &job) { job.lengths[0].name = "wrist"; }},
      {"length 0, is", "a length comes to no finite length", [](Job &job) { job.lengths[0].is = mm(no_number); }},
      {"length 0, is", "this comes to more than 100 km", [](Job &job) { job.lengths[0].is = mm(1.1e8); }},
      {"length 0, is", "this comes to -0.1 cm", [](Job &job) { job.lengths[0].is = mm(-1); }},
      {"length 0, is", "a symbol has a symbol that stands for nothing in the job",
       [](Job &job) { job.lengths[0].is = symbol(beyond); }},
      {"length 0, is", "a symbol has a symbol that stands for nothing in the job",
       [](Job &job) { job.lengths[0].is = symbol(std::numeric_limits<int>::min()); }},
      {"length 0, is", "the formula has a symbol that stands for nothing in the job",
       [](Job &job) { job.lengths[0].is = Formula::of_symbol(-1, ""); }},
      {"length 0, is", "what the formula is written as is not UTF-8",
       [](Job &job) { job.lengths[0].is = Formula::of({220}, "\xff"); }},
      {"length 0, is", "the lengths go round in a ring: cuff -> cuff",
       [](Job &job) { job.lengths[0].is = symbol(cuff); }},
      {"length 0, is", "a formula divides by 0",
       [](Job &job) {
         job.lengths[0].is = program({{Code::symbol, 0, wrist}, {Code::number, 0}, {Code::divide}});
       }},
      {"length 1, from", "this comes to -0.1 cm", [](Job &job) { range(job).from = mm(-1); }},
      {"length 1, to", "a length comes to no finite length", [](Job &job) { range(job).to = mm(infinity); }},
      {"length 1, aim", "this comes to 0", [](Job &job) { range(job).aim = mm(0); }},
      {"length 1, aim", "to aim at the most there must be a most",
       [](Job &job) {
         range(job).aim = Extreme::most;
         range(job).to.reset();
       }},
      {"length 1, aim", "this is nothing that a length is aimed at",
       [](Job &job) { range(job).aim = static_cast<Extreme>(2); }},
      {"length 1, to", "this hangs on frill, which is to be found",
       [](Job &job) {
         job.lengths.push_back({.name = "frill", .is = FreeLength{}});
         job.rules.clear();
         range(job).to = symbol(3);
       }},
      {"rule 0", "the rule has no name", [](Job &job) { job.rules[0].name = ""; }},
      {"rule 0", "the rule's name is not UTF-8", [](Job &job) { job.rules[0].name = "\xed\xa0\x80"; }},
      {"rule 0", "this is no relation that a rule has",
       [](Job &job) { job.rules[0].holds.relation = static_cast<Relation>(9); }},
      {"rule 0", "the width of the cloth is not known", [](Job &job) { job.fabric.width.reset(); }},
      {"rule 0", "a formula is not in proportion to its free lengths: it multiplies them",
       [](Job &job) {
         job.rules[0].holds.left = program({{Code::symbol, 0, sleeve}, {Code::symbol, 0, sleeve}, {Code::multiply}});
       }},
  });
}

TEST_CASE("a ring of two is told once, and what needs them is not") {
  Job job = good_job();
  job.lengths[1].is = FreeLength{.to = symbol(cuff)};
  job.lengths[0].is = symbol(sleeve);
  const std::vector<PlacedFault> faults = validate(job);
  REQUIRE(faults.size() == 1);
  CHECK(tests::path_of(faults[0].place) == "length 0, is");
  CHECK(faults[0].fault.what == "the lengths go round in a ring: cuff -> sleeve -> cuff");
}

TEST_CASE("a join is at fault by its name, its edges, its marks and how often it is made") {
  check({
      {"join 0, name", "the join has no name", [](Job &job) { job.joins[0].name = ""; }},
      {"join 0, name", "the join's name is not UTF-8", [](Job &job) { job.joins[0].name = "\xff"; }},
      {"join 1, name", "another join is called so", [](Job &job) { job.joins[1].name = job.joins[0].name; }},
      {"join 0, long", "this comes to 0", [](Job &job) { job.joins[0].long_edge.is = Formula(); }},
      {"join 0, band", "this comes to -0.1 cm", [](Job &job) { job.joins[0].band.is = mm(-1); }},
      {"join 0, band", "a symbol has a symbol that stands for nothing in the job",
       [](Job &job) { job.joins[0].band.is = symbol(beyond); }},
      {"join 0, band, ends", "the allowance before the first stitch comes to -0.1 cm",
       [](Job &job) {
         job.joins[0].band.ends = {Length{-1}, Length{}};
       }},
      {"join 0, band, ends", "the allowance after the last stitch comes to more than 100 km",
       [](Job &job) {
         job.joins[0].band.ends = {Length{}, Length{infinity}};
       }},
      {"join 0, make", "0 pieces are too few", [](Job &job) { job.joins[0].make = 0; }},
      {"join 0, make", "1000001 pieces are too many", [](Job &job) { job.joins[0].make = 1'000'001; }},
      {"join 0, marks", "0 parts are too few", [](Job &job) { job.joins[0].marks = PinsAtParts{0}; }},
      {"join 0, marks", "how far apart pins are comes to 0", [](Job &job) { job.joins[0].marks = PinsEvery{}; }},
      {"join 0, marks", "how far apart pins are is no number",
       [](Job &job) { job.joins[0].marks = PinsApart{Length{no_number}}; }},
      {"join 0, use", "this is no use that a join is put to", [](Job &job) { job.joins[0].use = static_cast<Use>(2); }},
      {"join 1, long", "the edge is drawn and its path is empty", [](Job &job) { cap(job).path = " \n"; }},
      {"join 1, long", "the path is not UTF-8", [](Job &job) { cap(job).path = "M 0 0 L \xff"; }},
      {"join 1, long", "this is no unit of a path", [](Job &job) { cap(job).path_unit = static_cast<Unit>(8); }},
      {"join 1, long, allowance", "the allowance comes to -0.1 cm", [](Job &job) { cap(job).allowance = Length{-1}; }},
      {"join 1, long, allowance", "the allowance is no number",
       [](Job &job) { cap(job).allowance = Length{no_number}; }},
      {"join 1, long", "the grain is nan", [](Job &job) { cap(job).grain = no_number; }},
      {"join 1, long", "the grain is -361", [](Job &job) { cap(job).grain = -361; }},
      {"join 1, long", "nothing says to which side of the line the allowance goes",
       [](Job &job) { cap(job).garment.reset(); }},
      {"join 1, long", "the garment lies on no side of the line",
       [](Job &job) { cap(job).garment = static_cast<Garment>(4); }},
      {"join 1, long", "the inside and the outside are sides of a closed edge only",
       [](Job &job) { cap(job).garment = Garment::inside; }},
      {"join 0", "there is no segment", [](Job &job) { job.joins[0].segments.clear(); }},
      {"join 0, fabric", "the join is said to have a weight of its own and has none",
       [](Job &job) { job.joins[0].own_weight = true; }},
  });
}

TEST_CASE("a cloth is at fault by its figures and by a swatch that is out of order") {
  check({
      {"join 0, fabric", "the name of the cloth is not UTF-8", [](Job &job) { cloth(job).name = "\xc0\x80"; }},
      {"join 0, fabric", "the weight of the cloth is nan g/m2",
       [](Job &job) { cloth(job).weight = Weight{no_number}; }},
      {"join 0, fabric", "the weight of the cloth is 2e+06 g/m2", [](Job &job) { cloth(job).weight = Weight{2e6}; }},
      {"join 0, fabric", "the width of the cloth comes to 0", [](Job &job) { cloth(job).width = Length{}; }},
      {"join 0, fabric", "the thickness of the cloth is no number",
       [](Job &job) { cloth(job).thickness = {no_number}; }},
      {"join 0, fabric", "the bending length of the cloth comes to -0.1 cm",
       [](Job &job) { cloth(job).bending_length = {-1}; }},
      {"join 0, fabric", "the swatch says nothing",
       [](Job &job) {
         cloth(job).swatch = Swatch{Length{300}, {}, {}, {}};
       }},
      {"join 0, fabric", "the cut length of the swatch is no number",
       [](Job &job) { take_swatch(job, [](Swatch &swatch) { swatch.cut = {no_number}; }); }},
      {"join 0, fabric", "the tight length of the swatch comes to 0",
       [](Job &job) { take_swatch(job, [](Swatch &swatch) { swatch.tight = Length{}; }); }},
      {"join 0, fabric", "a good length of the swatch comes to more than 100 km",
       [](Job &job) { take_swatch(job, [](Swatch &swatch) { (*swatch.good)[1] = {infinity}; }); }},
      {"join 0, fabric", "the stitch of the swatch is no number",
       [](Job &job) { take_swatch(job, [](Swatch &swatch) { swatch.stitch = {no_number}; }); }},
      {"join 0, fabric", "of the good lengths of the swatch the shorter stands second",
       [](Job &job) { take_swatch(job, [](Swatch &swatch) { (*swatch.good)[0] = {201}; }); }},
      {"join 0, fabric", "the swatch is longer gathered than it was cut",
       [](Job &job) { take_swatch(job, [](Swatch &swatch) { (*swatch.good)[1] = {301}; }); }},
      {"join 0, fabric", "the swatch is longer drawn up tight than it looks good, or was cut",
       [](Job &job) { take_swatch(job, [](Swatch &swatch) { swatch.tight = {101}; }); }},
  });
}

TEST_CASE("a gathering is at fault by its stitch, its rows and its thread") {
  check({
      {"join 0, gathering", "the stitch is no number", [](Job &job) { job.joins[0].gathering.stitch = {no_number}; }},
      {"join 0, gathering", "the stitch comes to 0", [](Job &job) { job.joins[0].gathering.stitch = {}; }},
      {"join 0, gathering", "the stitch comes to more than 100 km",
       [](Job &job) { job.joins[0].gathering.stitch = {infinity}; }},
      {"join 0, gathering", "a count of threads is nan",
       [](Job &job) {
         take_threads(job, {no_number, 4, 1.8}, 2);
       }},
      {"join 0, gathering", "a count of threads is 1001",
       [](Job &job) {
         take_threads(job, {3, 1001, 1.8}, 2);
       }},
      {"join 0, gathering", "the cloth's threads to a millimetre are 0",
       [](Job &job) {
         take_threads(job, {3, 4, 0}, 2);
       }},
      {"join 0, gathering", "the stitch is 3 mm and its threads come to 2 mm",
       [](Job &job) {
         take_threads(job, {4, 4, 2}, 3);
       }},
      {"join 0, gathering", "2000000000 rows are too many",
       [](Job &job) { job.joins[0].gathering.rows = 2'000'000'000; }},
      {"join 0, gathering", "-1 rows are too few", [](Job &job) { job.joins[0].gathering.rows = -1; }},
      {"join 0, gathering", "the tail of thread comes to -0.1 cm",
       [](Job &job) { job.joins[0].gathering.tail = {-1}; }},
      {"join 0, gathering", "the longest thread comes to 0", [](Job &job) { job.joins[0].gathering.longest = {}; }},
  });
}

TEST_CASE("a segment is at fault by its kind, its share, its limits and its lengths") {
  check({
      {"join 0, segment 1, name", "the segment's name has a line break or control character in it",
       [](Job &job) { gathers(job).name = "a\tb"; }},
      {"join 0, segment 1, to", "the mark's name is not UTF-8", [](Job &job) { gathers(job).to = "\xff"; }},
      {"join 0, segment 1, kind", "this is no kind of segment",
       [](Job &job) { gathers(job).kind = static_cast<Kind>(2'000'000); }},
      {"join 0, segment 1, share", "the share is 0", [](Job &job) { gathers(job).share = 0; }},
      {"join 0, segment 1, share", "the share is nan", [](Job &job) { gathers(job).share = no_number; }},
      {"join 0, segment 0, share", "a flat segment has no share", [](Job &job) { job.joins[0].segments[0].share = 2; }},
      {"join 0, segment 0, limits", "a flat segment has no limits",
       [](Job &job) { job.joins[0].segments[0].limits.most = 2; }},
      {"join 0, segment 1, limits", "the least fullness is 0.9", [](Job &job) { gathers(job).limits.least = 0.9; }},
      {"join 0, segment 1, limits", "the ideal fullness is nan",
       [](Job &job) { gathers(job).limits.ideal = no_number; }},
      {"join 0, segment 1, limits", "the most fullness is inf", [](Job &job) { gathers(job).limits.most = infinity; }},
      {"join 0, segment 1, limits", "the least, the ideal and the most fullness do not rise in this order",
       [](Job &job) {
         gathers(job).limits = {2, {}, 1.5};
       }},
      {"join 0, segment 1, limits", "the least, the ideal and the most fullness do not rise in this order",
       [](Job &job) {
         gathers(job).limits = {2, 1.5, {}};
       }},
      {"join 0, segment 1, limits", "the least, the ideal and the most fullness do not rise in this order",
       [](Job &job) {
         gathers(job).limits = {{}, 3, 2};
       }},
      {"join 1, segment 0, limits", "of ease only the most is a limit",
       [](Job &job) { job.joins[1].segments[0].limits.least = 1; }},
      {"join 0, segment 1, long", "this comes to 0", [](Job &job) { gathers(job).long_edge = mm(0); }},
      {"join 0, segment 1, band", "this comes to -0.1 cm", [](Job &job) { gathers(job).band = mm(-1); }},
      {"join 0, segment 0",
       "the flat segment has no length, and another gives neither length and takes what the "
       "others leave of the band",
       [](Job &job) { job.joins[0].segments[0].long_edge.reset(); }},
      {"join 0, segment 0",
       "the segment gives no band, and another gives neither length and takes what the others "
       "leave of the band",
       [](Job &job) { job.joins[0].segments[0].kind = Kind::gauge; }},
      {"join 0, segment 2", "two flat segments have no length",
       [](Job &job) {
         gathers(job).band = mm(100);
         job.joins[0].segments[0].long_edge.reset();
         job.joins[0].segments.emplace_back().kind = Kind::flat;
       }},
  });
}

TEST_CASE("a spread is at fault where no cloth can follow it") {
  check({
      {"join 0, segment 1, spread", "the fade at the start comes to -0.1 cm",
       [](Job &job) {
         gathers(job).spread = Fade{{Length{-1}, Length{}}};
       }},
      {"join 0, segment 1, spread", "the fade at the end is no number",
       [](Job &job) {
         gathers(job).spread = Fade{{Length{}, Length{no_number}}};
       }},
      {"join 0, segment 1, spread", "the grain takes no extra along an edge that is not drawn",
       [](Job &job) { gathers(job).spread = AlongGrain{}; }},
      {"join 0, segment 1, spread", "a segment of kind gauge is always even",
       [](Job &job) {
         gathers(job).kind = Kind::gauge;
         gathers(job).limits = {};
       }},
      {"join 0, segment 0, spread", "a segment of kind flat is always even",
       [](Job &job) { job.joins[0].segments[0].spread = Fade{}; }},
      {"join 0, segment 1, spread", "the shape has fewer than two points",
       [](Job &job) {
         take_shape(job, {{0, 1}});
       }},
      {"join 0, segment 1, spread", "a fraction of the shape is nan",
       [](Job &job) {
         take_shape(job, {{0, 1}, {no_number, 1}, {1, 1}});
       }},
      {"join 0, segment 1, spread", "an extra of the shape is -1",
       [](Job &job) {
         take_shape(job, {{0, 1}, {0.5, -1}, {1, 1}});
       }},
      {"join 0, segment 1, spread", "an extra of the shape is 1e-07",
       [](Job &job) {
         take_shape(job, {{0, 1}, {1, 1e-7}});
       }},
      {"join 0, segment 1, spread", "the first point of the shape is not at 0",
       [](Job &job) {
         take_shape(job, {{0.1, 1}, {1, 1}});
       }},
      {"join 0, segment 1, spread", "the last point of the shape is not at 1",
       [](Job &job) {
         take_shape(job, {{0, 1}, {0.9, 1}});
       }},
      {"join 0, segment 1, spread", "a point of the shape does not lie after the one before it",
       [](Job &job) {
         take_shape(job, {{0, 1}, {0.5, 1}, {0.5, 2}, {1, 1}});
       }},
      {"join 0, segment 1, spread", "the shape has no extra anywhere",
       [](Job &job) {
         take_shape(job, {{0, 0}, {1, 0}});
       }},
  });
}

TEST_CASE("a job with more in it than is looked at has that one fault") {
  check({
      {"", "the job has more than 1000000 measures, lengths, rules, joins, segments, points, pieces and parts of sides",
       [](Job &job) {
         gathers(job).spread = Shape{{1'000'000, {0, 1}}};
       }},
      {"", "the job has more than 10000000 bytes of names and paths",
       [](Job &job) { job.joins[0].name = std::string(10'000'000, 'x'); }},
      {"join 0, name", "the names of the joins, told for each of their segments, come to more than 20000000 bytes",
       [](Job &job) {
         job.joins[0].name = std::string(5'000'000, 'x');
         gathers(job).band = mm(50);
         job.joins[0].segments.resize(5, gathers(job));
       }},
  });
}

TEST_CASE("formulas may name no more lengths to be found than can be kept") {
  Job job = good_job();
  job.lengths.clear();
  job.rules.clear();
  const int first = job.symbol_of(LengthId(0));
  std::vector<Formula::Step> all;
  constexpr int lengths = 2001;
  for (int i = 0; i < lengths; ++i) {
    job.lengths.push_back({.name = "l" + std::to_string(i), .is = FreeLength{}});
    all.push_back({Code::symbol, 0, first + i});
    if (i > 0) all.push_back({Code::add});
  }
  for (Join &join : job.joins)
    join.band.is = mm(200);
  job.joins[0].long_edge.is = mm(400);
  job.lengths.push_back({.name = "all", .is = program(all)});
  const Comparison twice{symbol(first + lengths), Relation::at_least, mm(0)};
  // Each names 2001 of them; the length that is all of them does too.
  job.rules.assign(bounds::most_terms / lengths - 1, {"a rule", twice});
  CHECK(validate(job).empty());
  job.rules.push_back({"one more", twice});
  const std::vector<PlacedFault> faults = validate(job);
  REQUIRE(faults.size() == 1);
  CHECK(tests::path_of(faults[0].place) == "rule " + std::to_string(job.rules.size() - 1));
  CHECK(faults[0].fault.what == "up to here the formulas name lengths that are to be found more than 4000000 times");
}

TEST_CASE("a weight that can be read is none too heavy, and one that is too heavy cannot be read") {
  CHECK(read_weight("1000000 g/m2")->grams == bounds::heaviest.grams);
  CHECK(!read_weight("1000001 g/m2"));
}

TEST_CASE("all faults of a job are told, and what only follows from one is not") {
  Job job = good_job();
  job.measures[0].is = {no_number}; // cuff, and the join's band, come to nothing by it
  job.lengths[0].name = "";
  gathers(job).share = -1;
  cap(job).grain = infinity;
  std::vector<std::string> places;
  for (const PlacedFault &fault : validate(job))
    places.push_back(tests::path_of(fault.place));
  CHECK(places == std::vector<std::string>{"measure 0", "length 0", "join 0, segment 1, share", "join 1, long"});
}

TEST_CASE("what is wrong with the measures of a job that is else sound is told by itself as among all faults") {
  int wrong = 0;
  for (const double length : {200.0, 1e-300, 0.0, -1.0, no_number, infinity, 1e9, 5e-324, 57.3})
    for (const std::optional<double> age : {std::optional<double>(), {40}, {-1}, {no_number}, {1e6}}) {
      Job job = good_job();
      job.measures[0].is.mm = length;
      job.wearer_age = age;
      const std::vector<PlacedFault> all = validate(job);
      const std::vector<PlacedFault> of_measures = faults_of_measures(job);
      REQUIRE(of_measures.size() == all.size());
      for (std::size_t i = 0; i < all.size(); ++i) {
        CHECK(tests::path_of(of_measures[i].place) == tests::path_of(all[i].place));
        CHECK(of_measures[i].fault == all[i].fault);
      }
      wrong += !all.empty();
    }
  CHECK(wrong > 20);
  CHECK(wrong < 45);
}

TEST_CASE("a job with faults that can be seen without planning it has those and is not planned") {
  Job job = good_job();
  job.unit = static_cast<Unit>(99);
  gathers(job).share = -1;
  cap(job).path = "M 0 0 X"; // what planning would say
  const std::vector<PlacedFault> seen = validate(job);
  const Refusals given = tests::refusals_of(plan(job));
  REQUIRE(seen.size() == 2);
  REQUIRE(given.size() == seen.size());
  for (std::size_t i = 0; i < seen.size(); ++i) {
    CHECK(std::get<PlacedFault>(given[i]).fault == seen[i].fault);
    CHECK(tests::path_of(place_of(given[i])) == tests::path_of(seen[i].place));
  }
  const auto prepared = Prepared::prepare(job);
  REQUIRE_FALSE(prepared);
  CHECK(prepared.fault().size() == 2);
}

TEST_CASE("jobs of any values are planned or refused, and nothing is thrown") {
  int planned = 0;
  int faulty = 0;
  for (std::uint32_t seed = 0; seed < 4000; ++seed) {
    std::mt19937 random(seed);
    std::vector<std::uint8_t> bytes(400);
    for (std::uint8_t &byte : bytes)
      byte = static_cast<std::uint8_t>(random());
    bytes[0] = static_cast<std::uint8_t>(seed % 6);
    INFO("seed " << seed);
    const Job job = tests::HostileValues(bytes).job();
    const std::vector<PlacedFault> faults = validate(job);
    const PlanOutcome outcome = plan(job);
    if (!faults.empty()) {
      const auto *given = tests::fault_in(outcome);
      REQUIRE(given != nullptr);
      REQUIRE(given->size() == faults.size());
      for (std::size_t i = 0; i < faults.size(); ++i)
        REQUIRE(std::get<PlacedFault>((*given)[i]).fault == faults[i].fault);
      ++faulty;
    } else if (const Plan *plan = tests::value_in(outcome)) {
      for (const JoinPlan &join : plan->joins)
        REQUIRE((std::isfinite(join.long_length) && std::isfinite(join.band) && join.band > 0));
      ++planned;
    }
  }
  CHECK(planned > 500);
  CHECK(faulty > 1000);
}
