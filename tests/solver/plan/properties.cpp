// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/made_job.hpp"
#include "tests/told.hpp"

#include "solver/cloth/limits.hpp"

#include <cmath>
#include <random>
#include <string>

using namespace gatherwright;

namespace {

/// A length as it stands in a job, in millimetres times `scale`.
std::string mm(double value, double scale) {
  return "\"" + std::to_string(static_cast<long long>(std::llround(value * scale))) + " mm\"";
}

/// A random join of fixed lengths, within or without limits, with its segments' bands given so that nothing is left
/// over.
std::string random_job(std::mt19937_64 &random, double scale, const std::string &unit, const std::string &step,
                       bool mirrored) {
  const auto whole = [&](int low, int high) { return std::uniform_int_distribution<int>(low, high)(random); };
  const int count = whole(1, 5);
  int long_sum = 0;
  int band_sum = 0;
  std::string segments;
  for (int s = 0; s < count; ++s) {
    const int band = whole(30, 200);
    band_sum += band;
    const int kind = whole(0, 3);
    static const char *const kinds[] = {"gather", "gather", "ease", "flat"};
    // The last segment's band is what is left, so that both ways of giving it are met.
    const bool last = s + 1 == count;
    std::string segment = "{\"kind\": \"" + std::string(s == 0 ? "gather" : kinds[kind]) + "\"";
    if (!last || (s > 0 && kind == 3)) segment += ", \"band\": " + mm(band, scale);
    if (s == 0 && whole(0, 1)) segment += ", \"share\": 2";
    if (s == 0 && whole(0, 2) == 0)
      segment += ", \"spread\": {\"fade\": [" + mm(10, scale) + ", " + mm(15, scale) + "]}";
    segments += (s ? ", " : "") + segment + "}";
    long_sum += s > 0 && kind == 3   ? band
                : s > 0 && kind == 2 ? static_cast<int>(band * 1.04)
                                     : band * whole(12, 26) / 10;
  }
  const bool closed = whole(0, 3) == 0;
  return "{\"unit\": \"" + unit + "\", \"tape_step\": \"" + step +
         "\", \"joins\": [{\"name\": \"x\", \"long\": " + mm(long_sum, scale) + ", \"band\": " + mm(band_sum, scale) +
         ", \"closed\": " + (closed ? "true" : "false") + ", \"marks\": {\"apart\": " + mm(40, scale) + "}" +
         (mirrored ? ", \"make\": 2" : "") + ", \"segments\": [" + segments + "]}]}";
}

Approx near(double value, double size) {
  return Approx(value).epsilon(0).margin(1e-9 * size);
}

} // namespace

TEST_CASE("segments of random joins add up, marks keep their order and the map rises") {
  std::mt19937_64 random(7);
  for (int trial = 0; trial < 400; ++trial) {
    const std::string text = random_job(random, 1, "cm", "1 mm", false);
    INFO(text);
    const Plan plan = tests::plan_of(text, {.profile = true, .advice = false});
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
    const std::string text = random_job(random, 1, "cm", "1 mm", true);
    INFO(text);
    const Job job = tests::job_of(text);
    const Plan plan = tests::plan_of(job, {.profile = false, .advice = false});
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
  const Plan plan = tests::plan_of(R"({"joins": [{"name": "collar", "long": "83.7 cm", "band": "41.3 cm", "segments": [
    {"kind": "flat", "long": "2 cm"}, {"kind": "gather"}, {"kind": "gather"}, {"kind": "flat", "long": "2 cm"}]}]})");
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
    const std::string small = random_job(first, 1, "cm", "1 mm", false);
    const std::string large = random_job(second, 8, "cm", "8 mm", false);
    INFO(small << "\n" << large);
    const JoinPlan one = tests::plan_of(small, {.profile = false, .advice = false}).joins[0];
    const JoinPlan eight = tests::plan_of(large, {.profile = false, .advice = false}).joins[0];
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
    const JoinPlan metric =
        tests::plan_of(random_job(first, 1, "cm", "1 mm", false), {.profile = false, .advice = false}).joins[0];
    const JoinPlan inches =
        tests::plan_of(random_job(second, 1, "in", "1 mm", false), {.profile = false, .advice = false}).joins[0];
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
    const Job job = tests::job_of(random_job(random, 1, "cm", "1 mm", true));
    const Plan once = tests::plan_of(job);
    const Plan again = tests::plan_of(job);
    REQUIRE(once.joins[0].marks.size() == again.joins[0].marks.size());
    for (std::size_t i = 0; i < once.joins[0].marks.size(); ++i)
      CHECK(once.joins[0].marks[i].long_edge.exact == again.joins[0].marks[i].long_edge.exact);
  }
}

TEST_CASE("a spread that does not fit its band, a band of nothing and a rule that fails are told for what they are") {
  const auto faults = [](const char *text) {
    PlanOutcome outcome = plan(tests::job_of(text));
    auto *found = std::get_if<std::vector<PlacedFault>>(&outcome);
    return found ? *found : std::vector<PlacedFault>{};
  };
  const auto fade = faults(R"({"joins": [{"name": "x", "long": "40 cm", "band": "20 cm", "segments": [
    {"kind": "gather", "spread": {"fade": ["12 cm", "12 cm"]}}]}]})");
  REQUIRE(fade.size() == 1);
  CHECK(tests::path_of(fade[0].place) == "join 0, segment 0, spread");

  const auto nothing = faults(R"({"joins": [{"name": "x", "long": "40 cm", "band": "20 cm", "segments": [
    {"kind": "gather", "band": "20 cm"}, {"kind": "gather"}]}]})");
  REQUIRE(nothing.size() == 1);
  CHECK(tests::path_of(nothing[0].place) == "join 0, segment 1");

  const auto marks =
      faults(R"({"joins": [{"name": "x", "long": "40 m", "band": "20 m", "marks": {"apart": "1 mm"}}]})");
  REQUIRE(marks.size() == 1);
  CHECK(marks[0].fault.what.find("10000 marks") != std::string::npos);

  const Plan broken = tests::plan_of(
      R"({"lengths": {"slit": "7 cm"}, "rules": ["slit >= 8 cm"], "joins": [{"name": "x", "long": "40 cm", "band": "20 cm"}]})");
  CHECK(broken.verdict == Verdict::rule_broken);
  REQUIRE(broken.findings.size() == 1);
  const auto *rule = tests::find<finding::RuleBroken>(broken.findings);
  REQUIRE(rule);
  CHECK(rule->left == Approx(70));
  CHECK(rule->right == Approx(80));
  CHECK(broken.joins.size() == 1);
}

TEST_CASE("verdicts say what is wrong with the fullness") {
  const auto verdict = [](const std::string &lengths) {
    return tests::plan_of("{\"fabric\": {\"weight\": \"165 g/m2\"}, \"joins\": [{\"name\": \"x\", " + lengths + "}]}")
        .verdict;
  };
  CHECK(verdict(R"("long": "44 cm", "band": "20 cm")") == Verdict::within_limits);
  CHECK(verdict(R"("long": "54 cm", "band": "20 cm")") == Verdict::within_limits);
  CHECK(verdict(R"("long": "54.1 cm", "band": "20 cm")") == Verdict::too_full);
  CHECK(verdict(R"("long": "23.6 cm", "band": "20 cm")") == Verdict::within_limits);
  CHECK(verdict(R"("long": "23.5 cm", "band": "20 cm")") == Verdict::too_scant);
  CHECK(verdict(R"("long": "19 cm", "band": "20 cm")") == Verdict::cannot_be_gathered);
  CHECK(verdict(R"("long": "180 cm", "band": "20 cm")") == Verdict::cannot_be_gathered);
  CHECK(verdict(R"("long": "21.6 cm", "band": "20 cm", "segments": [{"kind": "ease"}])") == Verdict::within_limits);
  CHECK(verdict(R"("long": "21.7 cm", "band": "20 cm", "segments": [{"kind": "ease"}])") == Verdict::too_full);
}

TEST_CASE("ease is told as what cannot be gathered above closest packing, and shared out under it") {
  // 165 g/m2 packs to 2 * 4 / 3 over its thickness; 8 % are eased at most.
  const auto planned = [](const std::string &join) {
    return tests::plan_of(R"({"fabric": {"weight": "165 g/m2"}, "joins": [{"name": "x", )" + join + "}]}");
  };
  const Plan past = planned(R"("long": "90 cm", "band": "10 cm", "segments": [{"kind": "ease"}])");
  CHECK(past.verdict == Verdict::cannot_be_gathered);
  REQUIRE(past.findings.size() == 1);
  CHECK(tests::is_past(past.findings[0], finding::PastLimit::Limit::packed));
  CHECK(past.joins[0].segments[0].limits.packed == Approx(2 * 4 * cloth::grams_per_mm / (3 * 165)));
  // 30 % of ease is too much, but can be drawn up: it fades as asked. Over 10 cm with 2 cm at either end the wish is
  // worth 8 cm, so the middle takes 3 cm over 8.
  const Plan over = planned(
      R"("long": "13 cm", "band": "10 cm", "segments": [{"kind": "ease", "spread": {"fade": ["2 cm", "2 cm"]}}])");
  CHECK(over.verdict == Verdict::too_full);
  CHECK(over.joins[0].segments[0].fullest == Approx(1 + 3.0 / 8));
  CHECK(over.joins[0].segments[0].slackest == Approx(1));
  // A limit of the maker's own is bounded by closest packing as well: 2 / 3 of a 1.2 mm stitch over 0.6 mm of cloth.
  const Plan thick =
      tests::plan_of(R"({"fabric": {"weight": "300 g/m2", "thickness": "0.6 mm"}, "gathering": {"stitch": "1.2 mm"},
    "joins": [{"name": "x", "long": "15 cm", "band": "10 cm", "segments": [{"kind": "ease", "limits": {"most": 1.6}}]}]})");
  CHECK(thick.joins[0].segments[0].limits.most == Approx(2.0 * 1.2 / (3 * 0.6)));
  CHECK(thick.verdict == Verdict::cannot_be_gathered);
}

TEST_CASE("a join that is not within limits says what each edge alone would have to be") {
  const Plan plan = tests::plan_of(
      R"({"fabric": {"weight": "165 g/m2"}, "joins": [{"name": "neck", "long": "80 cm", "band": "24 cm", "segments": [
    {"kind": "flat", "long": "2 cm"}, {"kind": "gather"}]}]})");
  REQUIRE(plan.findings.size() == 1);
  REQUIRE(tests::is_past(plan.findings[0], finding::PastLimit::Limit::most));
  const finding::EdgesAlone &alone = tests::alone_of(plan.findings[0]);
  REQUIRE(alone.long_edge);
  REQUIRE(alone.band);
  // 20 mm plain and 2.7 times the 220 mm beside it; or 20 mm plain and 780 mm over 2.7.
  CHECK(*alone.long_edge == Approx(20 + 2.7 * 220));
  CHECK(*alone.band == Approx(20 + 780 / 2.7));
}

TEST_CASE("a long edge and a band that were swapped are told so") {
  const Plan plan = tests::plan_of(R"({"joins": [{"name": "cuff", "long": "22 cm", "band": "52 cm"}]})");
  REQUIRE(plan.findings.size() == 1);
  const auto *less = tests::find<finding::LessThanBand>(plan.findings);
  REQUIRE(less);
  CHECK(less->swapped);
}

TEST_CASE("conflicting totals and rules are a verdict with an irreducible set, not an error") {
  const Plan totals = tests::plan_of(R"({"joins": [{"name": "x", "long": "40 cm", "band": "20 cm", "segments": [
    {"kind": "flat", "long": "12 cm"}, {"kind": "flat", "long": "10 cm"}, {"kind": "gather"}]}]})");
  CHECK(totals.verdict == Verdict::rules_conflict);
  CHECK(totals.joins.empty());
  // 12 and 10 cm of plain band do not go into 20.
  REQUIRE(totals.conflict);
  REQUIRE(totals.conflict->conditions.size() == 5);
  CHECK(totals.conflict->apart == Approx(20));
}
