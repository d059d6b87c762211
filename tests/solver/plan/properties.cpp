// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/draft.hpp"
#include "tests/numbers.hpp"
#include "tests/told.hpp"

#include "gatherwright/limits.hpp"

#include <cmath>
#include <random>
#include <string>

using namespace gatherwright;
using namespace gatherwright::tests;

namespace {

/// A length as it stands in a job.
std::string written(int millimetres) {
  return std::to_string(millimetres) + " mm";
}

/// A random join of fixed lengths, within or without limits, with its segments' bands given so that nothing is left
/// over.
Draft random_job(std::mt19937_64 &random, bool mirrored, int scale = 1, Unit unit = Unit::cm) {
  const auto whole = [&](int low, int high) { return std::uniform_int_distribution<int>(low, high)(random); };
  const int count = whole(1, 5);
  int long_sum = 0;
  int band_sum = 0;
  std::vector<SegmentDraft> segments;
  for (int s = 0; s < count; ++s) {
    const int band = whole(30, 200);
    band_sum += band;
    const int kind = whole(0, 3);
    static constexpr Kind kinds_met[] = {Kind::gather, Kind::gather, Kind::ease, Kind::flat};
    // The last segment's band is what is left, so that both ways of giving it are met.
    const bool last = s + 1 == count;
    SegmentDraft segment{.kind = s == 0 ? Kind::gather : kinds_met[kind]};
    if (!last || (s > 0 && kind == 3)) segment.band = written(scale * band);
    if (s == 0 && whole(0, 1)) segment.share = 2;
    if (s == 0 && whole(0, 2) == 0) segment.spread = Fade{{mm(10 * scale), mm(15 * scale)}};
    segments.push_back(segment);
    long_sum += s > 0 && kind == 3   ? band
                : s > 0 && kind == 2 ? static_cast<int>(band * 1.04)
                                     : band * whole(12, 26) / 10;
  }
  const bool closed = whole(0, 3) == 0;
  return {.unit = unit,
          .tape_step = mm(scale),
          .joins = {{.name = "x",
                     .long_edge = written(scale * long_sum),
                     .band = written(scale * band_sum),
                     .segments = segments,
                     .closed = closed,
                     .make = mirrored ? 2 : 1,
                     .marks = PinsApart{mm(40 * scale), false}}}};
}

Approx near(double value, double size) {
  return Approx(value).epsilon(0).margin(1e-9 * size);
}

} // namespace

TEST_CASE("segments of random joins add up, marks keep their order and the map rises") {
  std::mt19937_64 random(7);
  for (int trial = 0; trial < 400; ++trial) {
    INFO("trial " << trial);
    const Plan plan = plan_of(random_job(random, false), {.profile = true, .advice = false});
    const JoinPlan &join = plan.joins[0];
    double long_sum = 0;
    double band_sum = 0;
    for (const SegmentPlan &segment : join.segments) {
      long_sum += segment.long_length;
      band_sum += segment.band;
    }
    CHECK(long_sum == near(join.long_length, join.long_length));
    CHECK(band_sum == near(join.band, join.band));
    for (std::size_t i = 1; i < join.marks.size(); ++i) {
      CHECK(join.marks[i].band.exact > join.marks[i - 1].band.exact);
      CHECK(join.marks[i].long_edge.exact > join.marks[i - 1].long_edge.exact);
      CHECK(join.marks[i].long_edge.tape >= join.marks[i - 1].long_edge.tape);
    }
    REQUIRE(join.profile);
    REQUIRE(join.profile->band.size() >= 200);
    for (std::size_t i = 1; i < join.profile->band.size(); ++i) {
      CHECK(join.profile->band[i] > join.profile->band[i - 1]);
      CHECK(join.profile->long_edge[i] > join.profile->long_edge[i - 1]);
    }
    CHECK(join.profile->band.back() == join.band);
    CHECK(join.profile->long_edge.back() == join.long_length);
    CHECK(join.pins == static_cast<int>(join.marks.size()));
  }
}

TEST_CASE("the mirrored marks are the same places read from the other end") {
  std::mt19937_64 random(8);
  for (int trial = 0; trial < 200; ++trial) {
    INFO("trial " << trial);
    const Job job = job_of(random_job(random, true));
    const Plan plan = plan_of(job, {.profile = false, .advice = false});
    const JoinPlan &join = plan.joins[0];
    REQUIRE(join.marks_mirrored);
    REQUIRE(join.marks_mirrored->size() == join.marks.size());
    const bool closed = job.joins[0].closed;
    for (std::size_t i = closed ? 1 : 0; i < join.marks.size(); ++i) {
      const Mark &mark = join.marks[i];
      const Mark &turned = (*join.marks_mirrored)[join.marks.size() - (closed ? 0 : 1) - i];
      CHECK(turned.band.exact == join.band - mark.band.exact);
      CHECK(turned.long_edge.tape == join.long_length - mark.long_edge.tape);
      CHECK(turned.reference == mark.reference);
    }
  }
}

TEST_CASE("a job that is the same from both ends has marks that are, on the tape too") {
  const Plan plan = plan_of(Draft{
      .joins = {{"collar",
                 "83.7 cm",
                 "41.3 cm",
                 {{.kind = Kind::flat, .long_edge = "2 cm"}, {}, {}, {.kind = Kind::flat, .long_edge = "2 cm"}}}}});
  const JoinPlan &join = plan.joins[0];
  for (std::size_t i = 0; i < join.marks.size(); ++i) {
    const Mark &other = join.marks[join.marks.size() - 1 - i];
    // The middle mark of an odd number of steps cannot lie in the middle: it is half a step off.
    const double allowed = 2 * i + 1 == join.marks.size() ? 1.0 : 1e-9;
    CHECK(std::abs(join.marks[i].band.tape + other.band.tape - join.band) <= allowed);
    CHECK(std::abs(join.marks[i].long_edge.tape + other.long_edge.tape - join.long_length) <= allowed);
  }
}

TEST_CASE("scaling every length of a job scales its plan") {
  for (std::uint64_t seed = 0; seed < 100; ++seed) {
    // Notes of the cloth know absolute sizes (stitches, thickness), so only lengths and fullness are compared.
    std::mt19937_64 first(seed);
    std::mt19937_64 second(seed);
    INFO("seed " << seed);
    const JoinPlan one = plan_of(random_job(first, false), {.profile = false, .advice = false}).joins[0];
    const JoinPlan eight = plan_of(random_job(second, false, 8), {.profile = false, .advice = false}).joins[0];
    REQUIRE(one.marks.size() == eight.marks.size());
    for (std::size_t s = 0; s < one.segments.size(); ++s) {
      CHECK(eight.segments[s].long_length == near(8 * one.segments[s].long_length, eight.long_length));
      CHECK(eight.segments[s].fullest == near(one.segments[s].fullest, 10));
    }
    for (std::size_t i = 0; i < one.marks.size(); ++i) {
      CHECK(eight.marks[i].long_edge.exact == near(8 * one.marks[i].long_edge.exact, eight.long_length));
      CHECK(eight.marks[i].long_edge.tape == near(8 * one.marks[i].long_edge.tape, eight.long_length));
    }
  }
}

TEST_CASE("the unit of a job changes how it is read off and nothing else") {
  for (std::uint64_t seed = 0; seed < 50; ++seed) {
    std::mt19937_64 first(seed);
    std::mt19937_64 second(seed);
    const JoinPlan metric = plan_of(random_job(first, false), {.profile = false, .advice = false}).joins[0];
    const JoinPlan inches =
        plan_of(random_job(second, false, 1, Unit::in), {.profile = false, .advice = false}).joins[0];
    REQUIRE(metric.marks.size() == inches.marks.size());
    for (std::size_t i = 0; i < metric.marks.size(); ++i) {
      CHECK(metric.marks[i].long_edge.exact == inches.marks[i].long_edge.exact);
      CHECK(metric.marks[i].long_edge.tape == inches.marks[i].long_edge.tape);
    }
  }
}

TEST_CASE("the same job gives the same plan to the last bit") {
  std::mt19937_64 random(9);
  for (int trial = 0; trial < 50; ++trial) {
    const Job job = job_of(random_job(random, true));
    CHECK(numbers_of(plan_of(job)) == numbers_of(plan_of(job)));
  }
}

TEST_CASE("marks lie on whole steps of the tape, but for an edge's own end") {
  std::mt19937_64 random(10);
  int whole = 0;
  for (int trial = 0; trial < 200; ++trial) {
    INFO("trial " << trial);
    const Job job = job_of(random_job(random, true));
    const JoinPlan join = plan_of(job, {.profile = false, .advice = false}).joins[0];
    const auto check = [&](double place, double end) {
      if (place == end) return;
      const double steps = place / job.tape_step.mm;
      CHECK(std::abs(steps - std::round(steps)) <= 1e-12 * std::max(1.0, steps));
      ++whole;
    };
    for (const Mark &mark : join.marks) {
      check(mark.long_edge.tape, join.long_length);
      check(mark.band.tape, join.band);
    }
  }
  CHECK(whole > 2000);
}

TEST_CASE("a spread that does not fit its band, a band of nothing and a rule that fails are told for what they are") {
  const auto planned = [](const Draft &draft) { return plan(job_of(draft)); };
  const auto fade = only_refusal<refusal::FadeTooLong>(
      planned(Draft{.joins = {{"x", "40 cm", "20 cm", {{.spread = Fade{{cm(12), cm(12)}}}}}}}));
  CHECK(path_of(place_of(fade)) == "join 0, segment 0, spread");
  CHECK(fade.fade == 240);
  CHECK(fade.band == Approx(200));

  const auto nothing =
      only_refusal<refusal::NoBand>(planned(Draft{.joins = {{"x", "40 cm", "20 cm", {{.band = "20 cm"}, {}}}}}));
  CHECK(path_of(place_of(nothing)) == "join 0, segment 1");

  const auto marks = only_refusal<refusal::TooManyMarks>(
      planned(Draft{.joins = {{.name = "x", .long_edge = "40 m", .band = "20 m", .marks = PinsApart{mm(1), false}}}}));
  CHECK(marks.most == 10000);
  CHECK_FALSE(marks.in_all);

  const Plan broken =
      plan_of(Draft{.lengths = {{"slit", "7 cm"}}, .rules = {"slit >= 8 cm"}, .joins = {{"x", "40 cm", "20 cm"}}});
  CHECK(broken.verdict == Verdict::rule_broken);
  REQUIRE(broken.findings.size() == 1);
  const auto *rule = find<finding::RuleBroken>(broken.findings);
  REQUIRE(rule);
  CHECK(rule->left == Approx(70));
  CHECK(rule->right == Approx(80));
  CHECK(broken.joins.size() == 1);
}

TEST_CASE("verdicts say what is wrong with the fullness") {
  const auto verdict = [](const std::string &length, Kind kind = Kind::gather) {
    return plan_of(Draft{.fabric = weighing(165), .joins = {{"x", length, "20 cm", {{.kind = kind}}}}}).verdict;
  };
  CHECK(verdict("44 cm") == Verdict::within_limits);
  CHECK(verdict("54 cm") == Verdict::within_limits);
  CHECK(verdict("54.1 cm") == Verdict::too_full);
  CHECK(verdict("23.6 cm") == Verdict::within_limits);
  CHECK(verdict("23.5 cm") == Verdict::too_scant);
  CHECK(verdict("19 cm") == Verdict::cannot_be_gathered);
  CHECK(verdict("180 cm") == Verdict::cannot_be_gathered);
  CHECK(verdict("21.6 cm", Kind::ease) == Verdict::within_limits);
  CHECK(verdict("21.7 cm", Kind::ease) == Verdict::too_full);
}

TEST_CASE("ease is told as what cannot be gathered above closest packing, and shared out under it") {
  // 165 g/m2 packs to 2 * 4 / 3 over its thickness; 8 % are eased at most.
  const auto planned = [](const std::string &length, const SpreadWish &spread) {
    return plan_of(
        Draft{.fabric = weighing(165), .joins = {{"x", length, "10 cm", {{.kind = Kind::ease, .spread = spread}}}}});
  };
  const Plan past = planned("90 cm", Even{});
  CHECK(past.verdict == Verdict::cannot_be_gathered);
  REQUIRE(past.findings.size() == 1);
  CHECK(is_past(past.findings[0], finding::PastLimit::Limit::packed));
  CHECK(past.joins[0].segments[0].limits.packed == Approx(2 * 4 * cloth::grams_per_mm / (3 * 165)));
  // 30 % of ease is too much, but can be drawn up: it fades as asked. Over 10 cm with 2 cm at either end the wish is
  // worth 8 cm, so the middle takes 3 cm over 8.
  const Plan over = planned("13 cm", Fade{{cm(2), cm(2)}});
  CHECK(over.verdict == Verdict::too_full);
  CHECK(over.joins[0].segments[0].fullest == Approx(1 + 3.0 / 8));
  CHECK(over.joins[0].segments[0].slackest == Approx(1));
  // A limit of the maker's own is bounded by closest packing as well: 2 / 3 of a 1.2 mm stitch over 0.6 mm of cloth.
  Fabric thick_cloth = weighing(300);
  thick_cloth.thickness = mm(0.6);
  const Plan thick = plan_of(Draft{.fabric = thick_cloth,
                                   .gathering = stitched(mm(1.2)),
                                   .joins = {{"x", "15 cm", "10 cm", {{.kind = Kind::ease, .limits = at_most(1.6)}}}}});
  CHECK(thick.joins[0].segments[0].limits.most == Approx(2.0 * 1.2 / (3 * 0.6)));
  CHECK(thick.verdict == Verdict::cannot_be_gathered);
}

TEST_CASE("a join that is not within limits says what each edge alone would have to be") {
  const Plan plan = plan_of(Draft{
      .fabric = weighing(165), .joins = {{"neck", "80 cm", "24 cm", {{.kind = Kind::flat, .long_edge = "2 cm"}, {}}}}});
  REQUIRE(plan.findings.size() == 1);
  REQUIRE(is_past(plan.findings[0], finding::PastLimit::Limit::most));
  const finding::EdgesAlone &alone = alone_of(plan.findings[0]);
  REQUIRE(alone.long_edge);
  REQUIRE(alone.band);
  // 20 mm plain and 2.7 times the 220 mm beside it; or 20 mm plain and 780 mm over 2.7.
  CHECK(*alone.long_edge == Approx(20 + 2.7 * 220));
  CHECK(*alone.band == Approx(20 + 780 / 2.7));
}

TEST_CASE("a long edge and a band that were swapped are told so") {
  const Plan plan = plan_of(Draft{.joins = {{"cuff", "22 cm", "52 cm"}}});
  REQUIRE(plan.findings.size() == 1);
  const auto *less = find<finding::LessThanBand>(plan.findings);
  REQUIRE(less);
  CHECK(less->swapped);
}

TEST_CASE("conflicting totals and rules are a verdict with an irreducible set, not an error") {
  const Plan totals = plan_of(
      Draft{.joins = {{"x",
                       "40 cm",
                       "20 cm",
                       {{.kind = Kind::flat, .long_edge = "12 cm"}, {.kind = Kind::flat, .long_edge = "10 cm"}, {}}}}});
  CHECK(totals.verdict == Verdict::rules_conflict);
  CHECK(totals.joins.empty());
  // 12 and 10 cm of plain band do not go into 20.
  REQUIRE(totals.conflict);
  REQUIRE(totals.conflict->conditions.size() == 5);
  CHECK(totals.conflict->apart == Approx(20));
}
