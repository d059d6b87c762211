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
    const auto *cord = find<caution::Cord>(plan.cautions);
    if (!cord) return std::optional<caution::Cord::Where>();
    CHECK(cord->joins == std::vector{JoinId(0)});
    CHECK_FALSE(cord->of_a_child);
    return std::optional(cord->where);
  };
  CHECK(told(std::nullopt) == caution::Cord::Where::neck);
  CHECK(told(Use::skirt) == caution::Cord::Where::waist); // a cord round a child's waist wants a caution of its own
  CHECK(told(Use::curtain) == std::nullopt);
}

TEST_CASE(
    "a child's cord is cautioned of before all else, and never at the neck where it is a skirt's or a curtain's") {
  using Where = caution::Cord::Where;
  const auto cautions = [](double age) {
    const auto drawn = [](std::string name, std::optional<Use> use) {
      return JoinDraft{.name = std::move(name),
                       .long_edge = "80 cm",
                       .band = "40 cm",
                       .segments = {{.kind = Kind::draw}},
                       .use = use};
    };
    Job job = job_of(Draft{.fabric = weighing(60),
                           .joins = {{.name = "gathered", .long_edge = "80 cm", .band = "40 cm"},
                                     drawn("neck", std::nullopt),
                                     drawn("skirt", Use::skirt),
                                     drawn("curtain", Use::curtain),
                                     drawn("sleeve", std::nullopt)}});
    job.wearer_age = age;
    return plan_of(job).cautions;
  };
  const std::vector<Caution> of_a_child = cautions(13.9);
  REQUIRE(of_a_child.size() == 4);
  const auto neck = std::get<caution::Cord>(of_a_child[0]);
  const auto waist = std::get<caution::Cord>(of_a_child[1]);
  CHECK(neck.where == Where::neck);
  CHECK(neck.of_a_child);
  CHECK(neck.joins == std::vector{JoinId(1), JoinId(4)});
  CHECK(waist.where == Where::waist);
  CHECK(waist.of_a_child);
  CHECK(waist.joins == std::vector{JoinId(2)});
  CHECK(count<caution::Cord>(cautions(14)) == 0);
}

TEST_CASE("how well what is within limits lies within them goes by the outer fifths of what they allow") {
  const auto standing = [](Kind kind, const std::string &long_edge, OwnLimits limits) {
    const Plan plan = plan_of(Draft{
        .fabric = weighing(165),
        .joins = {
            {.name = "n", .long_edge = long_edge, .band = "100 cm", .segments = {{.kind = kind, .limits = limits}}}}});
    CHECK(plan.joins[0].standing == plan.joins[0].segments[0].standing);
    return plan.joins[0].standing;
  };
  const OwnLimits two_to_three{2, std::nullopt, 3};
  CHECK(standing(Kind::gather, "199 cm", two_to_three) == std::nullopt);
  CHECK(standing(Kind::gather, "200 cm", two_to_three) == Standing::only_just);
  CHECK(standing(Kind::gather, "219 cm", two_to_three) == Standing::only_just);
  CHECK(standing(Kind::gather, "221 cm", two_to_three) == Standing::well);
  CHECK(standing(Kind::gather, "279 cm", two_to_three) == Standing::well);
  CHECK(standing(Kind::gather, "281 cm", two_to_three) == Standing::only_just);
  CHECK(standing(Kind::gather, "301 cm", two_to_three) == std::nullopt);
  // No ease is too little.
  CHECK(standing(Kind::ease, "100 cm", at_most(1.1)) == Standing::well);
  CHECK(standing(Kind::ease, "107.9 cm", at_most(1.1)) == Standing::well);
  CHECK(standing(Kind::ease, "108.1 cm", at_most(1.1)) == Standing::only_just);
  CHECK(standing(Kind::flat, "100 cm", {}) == std::nullopt);
}

TEST_CASE("a join stands as its least segment does, and one that is not within limits stands nowhere") {
  const auto join = [](const std::string &left, const std::string &right) {
    const OwnLimits limits{2, std::nullopt, 3};
    return plan_of(Draft{.joins = {{.name = "n",
                                    .long_edge = left + " + " + right + " + 5 cm",
                                    .band = "25 cm",
                                    .segments = {{.long_edge = left, .band = "10 cm", .limits = limits},
                                                 {.kind = Kind::flat, .band = "5 cm"},
                                                 {.long_edge = right, .band = "10 cm", .limits = limits}}}}})
        .joins[0];
  };
  CHECK(join("25 cm", "24 cm").standing == Standing::well);
  CHECK(join("25 cm", "29 cm").standing == Standing::only_just);
  const JoinPlan bad = join("25 cm", "35 cm");
  CHECK(bad.standing == std::nullopt);
  CHECK(bad.segments[0].standing == Standing::well);
  CHECK(bad.segments[2].standing == std::nullopt);
}

namespace {

/// An edge drawn 37 cm across, with 15 mm of allowance.
Plan plan_of_drawn(const std::string &path, Garment garment, bool closed = false) {
  return plan_of(Draft{.fabric = weighing(200),
                       .joins = {{.name = "n",
                                  .long_edge = DrawnEdge{.path = path, .allowance = mm(15), .garment = garment},
                                  .band = "30 cm",
                                  .closed = closed}}});
}

constexpr const char *cap_path = "M 0 140 C 60 140 70 60 110 25 C 150 -10 210 -10 250 25 C 290 60 310 140 370 140";

} // namespace

TEST_CASE("the side of a drawn edge that is the garment's is told as seen on the page") {
  const auto side = [](const std::string &path, Garment garment, bool closed = false) {
    return plan_of_drawn(path, garment, closed).joins[0].drawn_long->garment;
  };
  CHECK(side("M 0 0 L 400 10", Garment::right) == GarmentSide::below);
  CHECK(side("M 0 0 L 400 10", Garment::left) == GarmentSide::above);
  CHECK(side("M 400 10 L 0 0", Garment::right) == GarmentSide::above);
  CHECK(side("M 0 0 L 10 400", Garment::right) == GarmentSide::to_the_left);
  CHECK(side("M 0 0 L 10 400", Garment::left) == GarmentSide::to_the_right);
  CHECK(side("M 0 0 H 400 V 400 H 30 V 50", Garment::right) == GarmentSide::right_of_way);
  CHECK(side("M 0 0 H 400 V 400 H 0 Z", Garment::inside, true) == GarmentSide::inside);
  CHECK(side("M 0 0 H 400 V 400 H 0 Z", Garment::left, true) == GarmentSide::left_of_way);
}

TEST_CASE("a cap with its garment on the outside is asked about, a neckline and a cap that is right are not") {
  const auto asked = [](const std::string &path, Garment garment) {
    return count<note::GarmentOutside>(plan_of_drawn(path, garment).notes) == 1;
  };
  const std::string from_the_other_end =
      "M 370 140 C 310 140 290 60 250 25 C 210 -10 150 -10 110 25 C 70 60 60 140 0 140";
  const std::string upside_down = "M 0 0 C 60 0 70 80 110 115 C 150 150 210 150 250 115 C 290 80 310 0 370 0";
  CHECK_FALSE(asked(cap_path, Garment::right));
  CHECK(asked(cap_path, Garment::left));
  CHECK(asked(from_the_other_end, Garment::right));
  CHECK_FALSE(asked(from_the_other_end, Garment::left));
  CHECK(asked(upside_down, Garment::right));
  CHECK_FALSE(asked(upside_down, Garment::left));
  // A neckline is a hollow in the garment: a half circle, and a shallow arc.
  for (const Garment garment : {Garment::left, Garment::right}) {
    CHECK_FALSE(asked("M 0 0 A 150 150 0 0 0 300 0", garment));
    CHECK_FALSE(asked("M 0 0 A 300 300 0 0 0 400 0", garment));
    CHECK_FALSE(asked("M 0 0 L 370 0", garment));
  }
}

namespace {

/// A gathered test strip that looks right between these lengths.
Swatch strip(Length cut, std::array<Length, 2> good) {
  return {cut, std::nullopt, good, std::nullopt};
}

} // namespace

TEST_CASE("a test strip that the weight contradicts is told to be believed, once or of each join") {
  const auto told = [](double grams, std::vector<JoinDraft> joins) {
    Fabric fabric = weighing(grams);
    fabric.swatch = strip(cm(30), std::array{cm(10), cm(16)});
    return plan_of(Draft{.fabric = fabric, .joins = std::move(joins)}).notes;
  };
  const JoinDraft gathered{.name = "n", .long_edge = "80 cm", .band = "40 cm"};
  const std::vector<Note> notes = told(165, {gathered, {.name = "m", .long_edge = "70 cm", .band = "30 cm"}});
  REQUIRE(count<note::SwatchBelieved>(notes) == 1);
  const auto &believed = *find<note::SwatchBelieved>(notes);
  CHECK_FALSE(believed.at);
  CHECK(believed.least == Approx(30.0 / 16));
  CHECK(believed.most == Approx(3));
  CHECK(believed.least_by_weight == Approx(1.18)); // the table's own figures at 165 g/m2
  CHECK(believed.most_by_weight == Approx(2.7));
  CHECK(believed.weight == 165);
  const JoinDraft eased{.name = "n", .long_edge = "41 cm", .band = "40 cm", .segments = {{.kind = Kind::ease}}};
  CHECK(count<note::SwatchBelieved>(told(165, {eased})) == 0);
  // A skirt allows more by either, but not by the same, and is told by itself.
  Job two =
      job_of(Draft{.fabric = weighing(165), .joins = {gathered, {.name = "m", .long_edge = "70 cm", .band = "30 cm"}}});
  for (Join &join : two.joins)
    join.fabric.swatch = strip(cm(30), std::array{cm(10), cm(16)});
  two.joins[1].fabric.swatch->good = std::array{cm(12), cm(16)};
  CHECK(count<note::SwatchBelieved>(plan_of(two).notes) == 2);
}

TEST_CASE("a strip that says what the weight says is not told of") {
  Fabric fabric = weighing(165);
  fabric.swatch = strip(mm(270), std::array{mm(100), mm(228.8)}); // 1.18 to 2.70, as the table
  CHECK(count<note::SwatchBelieved>(
            plan_of(Draft{.fabric = fabric, .joins = {{.name = "n", .long_edge = "80 cm", .band = "40 cm"}}}).notes) ==
        0);
}

TEST_CASE("gauged in folds as shallow as gathers the stitch is asked about") {
  const auto asked = [](double stitch, Kind kind) {
    const Plan plan =
        plan_of(Draft{.fabric = weighing(135),
                      .gathering = stitched(mm(stitch)),
                      .joins = {{.name = "n", .long_edge = "120 in", .band = "40 in", .segments = {{.kind = kind}}}}});
    const auto *found = find<note::ShallowFolds>(plan.notes);
    return found ? found->folds : 0;
  };
  CHECK(asked(1.5875, Kind::gauge) == 960); // 120 in at 16 holes to the inch, two a fold
  CHECK(asked(1.5875, Kind::gather) == 0);
  CHECK(asked(4, Kind::gauge) == 0);
}
