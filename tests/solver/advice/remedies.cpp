// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/draft.hpp"
#include "tests/solver/advice/asked.hpp"
#include "tests/solver/advice/linear_program.hpp"
#include "tests/solver/advice/random_job.hpp"
#include "tests/told.hpp"

#include "solver/advice/change.hpp"
#include "solver/advice/nearest.hpp"
#include "solver/allot/scheme.hpp"
#include "solver/optimum/solver.hpp"
#include "tests/outcomes.hpp"

#include <algorithm>
#include <cmath>
#include <map>

using namespace gatherwright;
using namespace gatherwright::tests;

namespace {

/// The least change of the subject alone, by linear programming: minimise t with t >= q - is and t >= is - q.
Least least_change(const optimum::Problem &problem, int column, double is) {
  optimum::Problem with_change = problem;
  const int change = with_change.unknowns++;
  with_change.at_least.add(std::vector<optimum::Term>{{change, 1.0}, {column, -1.0}}, -is);
  with_change.at_least.add(std::vector<optimum::Term>{{change, 1.0}, {column, 1.0}}, is);
  std::vector<double> cost(with_change.unknowns, 0);
  cost[change] = 1;
  return least_by_glpk(with_change, cost);
}

/// What a remedy makes longer or shorter, by and to how much.
struct Lengthened {
  allot::Subject subject;
  double by = 0;
  double to = 0;
};

/// Nothing where a change is not one of a length.
std::optional<Lengthened> lengthened(const Change &change) {
  if (const auto *length = std::get_if<change::ToLength>(&change))
    return Lengthened{{length->at}, length->by, length->to};
  if (const auto *edge = std::get_if<change::ToEdge>(&change)) return Lengthened{{edge->at}, edge->by, edge->to};
  return std::nullopt;
}

/// Every length that may be changed, tried in the whole job: to what it would have to be for one join, or for all.
std::map<LengthId, double> lengths_that_mend(const Job &job, const Plan &made, std::optional<JoinId> join) {
  const std::vector<double> planned = lengths_of(made);
  const std::vector<JoinId> joins = join ? std::vector{*join} : joins_of(job);
  std::map<LengthId, double> found;
  optimum::Solver solver;
  for (int i = 0; i < static_cast<int>(job.lengths.size()); ++i) {
    if (job.lengths[i].keep) continue;
    const allot::Question question = free_question({LengthId(i)}, planned, joins);
    const auto exact = advice::nearest_value(job, question, {}, planned[i], solver);
    if (!exact || std::abs(*exact - planned[i]) <= advice::on_step * job.tape_step.mm) continue;
    for (const double to : advice::steps_beyond(planned[i], *exact, job.tape_step.mm)) {
      if (!(to > 0)) continue;
      optimum::Work work;
      const auto again = advice::planned_again(advice::with_length(job, question.subject, planned[i], to), {}, work);
      if (!again || !advice::mended(*again, join)) continue;
      found.emplace(LengthId(i), to);
      break;
    }
  }
  return found;
}

/// To within what rounding leaves.
bool doubles_or_halves(double is, double to) {
  return to > is ? to - 2 * is > -1e-6 : is - 2 * to > -1e-6;
}

bool is_drastic(const Change &change) {
  const auto length = lengthened(change);
  return length && doubles_or_halves(length->to - length->by, length->to);
}

/// The place of a change in the order that the headers promise.
int place_in_order(const Change &change) {
  if (std::holds_alternative<change::Swap>(change)) return 0;
  if (std::holds_alternative<change::ToStitch>(change)) return 2;
  if (std::holds_alternative<change::ToKind>(change)) return 3;
  if (std::holds_alternative<change::ToWeight>(change)) return 4;
  if (std::holds_alternative<change::ToClothLength>(change)) return 4;
  const Lengthened length = lengthened(change).value();
  return 3 * std::abs(length.by) <= (length.to - length.by) + 1e-6 ? 1 : 5;
}

/// The change of this length that a plan offers; null where it offers none.
const change::ToLength *change_of(const Plan &plan, LengthId length) {
  for (const Remedy &remedy : plan.remedies)
    if (const auto *change = std::get_if<change::ToLength>(&remedy.change); change && change->at == length)
      return change;
  return nullptr;
}

} // namespace

TEST_CASE("each remedy brings the job within limits, and no smaller change of that length does") {
  std::mt19937_64 random(21);
  int remedies = 0;
  int compared = 0;
  for (int trial = 0; trial < 150; ++trial) {
    INFO("trial " << trial);
    const Job job = job_of(random_advice_job(random));
    PlanOutcome outcome = plan(job);
    const auto *made = tests::value_in(outcome);
    if (!made || made->verdict == Verdict::within_limits || made->verdict == Verdict::rules_conflict) continue;
    const std::vector<double> lengths = lengths_of(*made);
    const std::vector<JoinId> joins = joins_of(job);
    double before = 0;
    for (const Remedy &remedy : made->remedies) {
      ++remedies;
      const std::optional<Lengthened> change = lengthened(remedy.change);
      if (!change) continue;
      const auto &[subject, by, to] = *change;
      const double is = to - by;
      optimum::Work work;
      const auto again = advice::planned_again(advice::with_length(job, subject, is, to), {}, work);
      REQUIRE(again);
      CHECK(advice::mended(*again, remedy.mends));
      if (remedy.mends) continue;
      CHECK(std::abs(by) / is >= before - 1e-12);
      before = std::abs(by) / is;
      const allot::Question question = free_question(subject, lengths, joins);
      const auto asked = allot::scheme(job, question);
      REQUIRE(asked);
      const Least least = least_change(asked->scheme.problem, asked->column, is);
      REQUIRE(least.bounded);
      // `to` is the first or second step at or beyond the exact change.
      CHECK(std::abs(by) >= least.value - 1e-4);
      CHECK(std::abs(by) <= least.value + 2 * job.tape_step.mm + 1e-4);
      ++compared;
    }
  }
  CHECK(remedies > 50);
  CHECK(compared > 30);
}

TEST_CASE("the lengths offered are those that a search through every length of the whole job finds") {
  std::mt19937_64 random(22);
  int searched = 0;
  int found_in_all = 0;
  for (int trial = 0; trial < 150; ++trial) {
    INFO("trial " << trial);
    const Job job = job_of(random_advice_job(random));
    PlanOutcome outcome = plan(job);
    const auto *made = tests::value_in(outcome);
    if (!made || made->verdict == Verdict::within_limits || made->verdict == Verdict::rules_conflict) continue;
    const bool of_whole = made->remedies.empty() || !made->remedies.front().mends;
    std::vector<std::optional<JoinId>> mended{std::nullopt};
    for (const JoinId join : joins_of(job))
      if (!of_whole && made->joins[join.at].verdict != Verdict::within_limits) mended.emplace_back(join);
    for (const std::optional<JoinId> &join : mended) {
      std::map<LengthId, double> offered;
      for (const Remedy &remedy : made->remedies)
        if (const auto *change = std::get_if<change::ToLength>(&remedy.change); change && remedy.mends == join)
          offered.insert_or_assign(change->at, change->to);
      std::map<LengthId, double> found = lengths_that_mend(job, *made, join);
      const bool any_mild = std::any_of(made->remedies.begin(), made->remedies.end(), [&](const Remedy &remedy) {
        return remedy.mends == join && !is_drastic(remedy.change);
      });
      if (any_mild)
        std::erase_if(found, [&](const auto &each) {
          const double is = *made->lengths[each.first.at].is;
          return doubles_or_halves(is, each.second);
        });
      CHECK(offered.size() == found.size());
      for (const auto &[length, to] : found) {
        REQUIRE(offered.count(length) == 1);
        CHECK(offered.at(length) == Approx(to).epsilon(1e-12));
      }
      ++searched;
      found_in_all += static_cast<int>(found.size());
    }
  }
  CHECK(searched > 80);
  CHECK(found_in_all > 80);
}

TEST_CASE("what is to be kept, a measure and the cloth's width are never changed") {
  const Plan plan =
      plan_of(Draft{.fabric = weighing(165, cm(150)),
                    .measures = {{"neck", cm(39)}},
                    .lengths = {{.name = "collar", .is = "neck + 2 cm", .keep = true}, {"edge", "cloth_width"}},
                    .joins = {{"neck", "edge", "collar"}}});
  CHECK(plan.verdict == Verdict::too_full);
  REQUIRE_FALSE(plan.remedies.empty());
  for (const Remedy &remedy : plan.remedies) {
    const auto *change = std::get_if<change::ToLength>(&remedy.change);
    if (!change) continue;
    CHECK(change->at == LengthId(1));
    CHECK(change->to == Approx(2.7 * 410).margin(1));
  }
}

TEST_CASE("no length is changed to where the job would be refused") {
  // Of q 54 cm at most can be gathered into 20 cm; there the range or the aim of f would begin below 0.
  for (const LengthDraft &free :
       {LengthDraft{.name = "f", .from = "q - 60 cm"}, LengthDraft{.name = "f", .aim = "q - 60 cm"},
        LengthDraft{.name = "f", .aim = "q - 54 cm"}}) {
    INFO(free.from << free.aim);
    const Plan plan = plan_of(Draft{.fabric = weighing(165),
                                    .lengths = {{"q", "80 cm"}, free},
                                    .joins = {{"x", "q", "20 cm"}, {"y", "f", "12 cm"}}});
    REQUIRE(plan.verdict == Verdict::too_full);
    CHECK(change_of(plan, LengthId(0)) == nullptr);
    REQUIRE_FALSE(plan.remedies.empty()); // a longer band
  }
}

TEST_CASE("a cloth that mends does, and one that is a gram nearer does not") {
  std::mt19937_64 random(7);
  int remedies = 0;
  for (int n = 0; n < 250; ++n) {
    const Job job = job_of(random_advice_job(random));
    const PlanOutcome made = plan(job);
    if (!made) continue;
    for (const Remedy &remedy : made->remedies) {
      const auto *weight = std::get_if<change::ToWeight>(&remedy.change);
      if (!weight) continue;
      INFO("job " << n << ", " << weight->to << " g/m2");
      const auto does = [&](double grams) {
        const PlanOutcome again = plan(advice::with_weight(job, {grams}), {.advice = false});
        return again && advice::mended(*again, remedy.mends);
      };
      CHECK(does(weight->to));
      const int direction = weight->by > 0 ? 1 : -1;
      if (std::abs(weight->by) > 1.5) CHECK_FALSE(does(weight->to - direction));
      ++remedies;
    }
  }
  CHECK(remedies > 40);
}

TEST_CASE("a stretch that is worked otherwise keeps its share and sheds its own limits") {
  const Job job =
      job_of(Draft{.fabric = weighing(165),
                   .joins = {{"x", "120 cm", "25 cm", {{.share = 3, .limits = {1.2, std::nullopt, 2}}, {}}}}});
  const Join changed = advice::with_kind(job.joins[0], 0, Kind::gauge);
  CHECK(changed.segments[0].kind == Kind::gauge);
  CHECK(changed.segments[0].share == 3);
  CHECK_FALSE(changed.segments[0].limits.least);
  CHECK_FALSE(changed.segments[0].limits.most);
}

TEST_CASE("a free length changes by the end of its range that binds") {
  // The cuff takes 2.7 * 22 = 59.4 cm at the most and 1.18 * 22 = 25.96 cm at the least.
  const auto planned = [](const LengthDraft &sleeve) {
    return plan_of(Draft{.fabric = weighing(165),
                         .lengths = {{.name = "cuff", .is = "22 cm", .keep = true}, sleeve},
                         .joins = {{"x", "sleeve", "cuff"}}});
  };
  const Plan full = planned({.name = "sleeve", .from = "70 cm", .to = "90 cm", .aim = "80 cm"});
  REQUIRE(full.verdict == Verdict::too_full);
  REQUIRE_FALSE(full.remedies.empty());
  const auto &shorter = std::get<change::ToLength>(full.remedies[0].change);
  CHECK(shorter.at == LengthId(1));
  CHECK(shorter.to == Approx(594));
  CHECK(shorter.by == Approx(-106));
  const Plan scant = planned({.name = "sleeve", .from = "22 cm", .to = "25 cm"});
  REQUIRE(scant.verdict == Verdict::too_scant);
  REQUIRE_FALSE(scant.remedies.empty());
  const auto &longer = std::get<change::ToLength>(scant.remedies[0].change);
  CHECK(longer.at == LengthId(1));
  CHECK(longer.to == Approx(260));
  CHECK(longer.by == Approx(10));
}

TEST_CASE("a conflict is mended by a fixed length or an end of a range that is part of it") {
  const Plan plan = plan_of(Draft{.fabric = weighing(165, cm(150)),
                                  .lengths = {{"cuff", "40 cm"},
                                              {"turning", "3 cm"},
                                              {"least", "80 cm"},
                                              {.name = "sleeve", .from = "least", .to = "90 cm"}},
                                  .rules = {"2 * sleeve + 2 * turning <= cloth_width"},
                                  .joins = {{"x", "sleeve", "cuff"}}});
  REQUIRE(plan.verdict == Verdict::rules_conflict);
  // 150 cm less twice 3 cm leaves 72 cm for each sleeve; with nothing turned it would still be only 75 cm.
  REQUIRE(plan.remedies.size() == 2);
  std::vector<LengthId> changed;
  for (const Remedy &remedy : plan.remedies) {
    const auto &change = std::get<change::ToLength>(remedy.change);
    CHECK(change.to == Approx(720));
    CHECK(change.by == Approx(-80));
    changed.push_back(change.at);
  }
  CHECK(changed == std::vector{LengthId(2), LengthId(3)}); // least, sleeve
}

TEST_CASE("plain stretches that do not come to the long edge are mended by that edge, or by easing one of them") {
  const Plan plan = plan_of(Draft{
      .joins = {
          {"x", "30.5 cm", "30 cm", {{.kind = Kind::flat, .band = "15 cm"}, {.kind = Kind::flat, .band = "15 cm"}}}}});
  REQUIRE(plan.verdict == Verdict::rules_conflict);
  REQUIRE(plan.remedies.size() == 3);
  const EdgeAt long_edge(JoinId(0), WhichEdge::long_edge);
  const auto &edge = std::get<change::ToEdge>(plan.remedies[0].change);
  CHECK(edge.at == long_edge);
  CHECK(edge.to == Approx(300));
  CHECK(edge.by == Approx(-5));
  for (const int segment : {0, 1}) { // 15.5 cm into 15 cm
    const auto &kind = std::get<change::ToKind>(plan.remedies[1 + segment].change);
    CHECK(kind.at == SegmentAt(JoinId(0), segment));
    CHECK(kind.becomes == Kind::ease);
  }
  const Plan far = plan_of(Draft{
      .joins = {
          {"x", "40 cm", "30 cm", {{.kind = Kind::flat, .band = "15 cm"}, {.kind = Kind::flat, .band = "15 cm"}}}}});
  REQUIRE(far.remedies.size() == 1); // 25 cm into 15 cm is not ease
  CHECK(std::get<change::ToEdge>(far.remedies[0].change).at == long_edge);
}

TEST_CASE("a stretch that is gathered too full is mended by easing the plain one beside it, where that takes enough") {
  // At most 20 cm can be gathered into 10 cm. Of 40.5 cm the 20 cm plain leave 20.5 cm, eased by up to 8 % they leave
  // 18.9 cm; of 44 cm they leave 22.4 cm at least.
  const auto plan_of_long = [](const std::string &length) {
    return plan_of(
        Draft{.fabric = weighing(165),
              .joins = {{"x",
                         length,
                         "30 cm",
                         {{.kind = Kind::flat, .band = "20 cm"}, {.band = "10 cm", .limits = {1.3, 1.6, 2}}}}}});
  };
  const auto eases = [](const Plan &plan) {
    return std::count_if(plan.remedies.begin(), plan.remedies.end(), [](const Remedy &remedy) {
      const auto *change = std::get_if<change::ToKind>(&remedy.change);
      return change && change->becomes == Kind::ease;
    });
  };
  const Plan little = plan_of_long("40.5 cm");
  CHECK(little.verdict == Verdict::too_full);
  CHECK(eases(little) == 1);
  const Plan much = plan_of_long("44 cm");
  CHECK(much.verdict == Verdict::too_full);
  CHECK(eases(much) == 0);
}

TEST_CASE("a too full neck is mended by longer shoulder seams, and by as much as the sum says") {
  // Neck edge = body width less two shoulder seams; 2.7 * 40 = 108 cm at most for this collar, so each seam 1 cm
  // longer.
  const Plan plan = plan_of(Draft{.fabric = weighing(165),
                                  .lengths = {{.name = "body", .is = "144 cm", .keep = true},
                                              {"shoulder", "17 cm"},
                                              {.name = "collar", .is = "40 cm", .keep = true},
                                              {"neck_edge", "body - 2 * shoulder"}},
                                  .joins = {{"neck into collar", "neck_edge", "collar"}}});
  CHECK(plan.verdict == Verdict::too_full);
  REQUIRE_FALSE(plan.remedies.empty());
  const change::ToLength *shoulder = change_of(plan, LengthId(1));
  REQUIRE(shoulder != nullptr);
  CHECK(shoulder->by == Approx(10));
  CHECK(shoulder->to == Approx(180));
}

TEST_CASE("the nearest cloth weight that would do, a longer stitch and another kind are offered where they mend") {
  const Plan full = plan_of(Draft{.fabric = weighing(165), .joins = {{"x", "56 cm", "20 cm"}}});
  const auto *lighter = find<change::ToWeight>(full.remedies);
  REQUIRE(lighter != nullptr);
  CHECK(lighter->to < 165);
  const auto verdict_at = [](int grams) {
    return plan_of(Draft{.fabric = weighing(grams), .joins = {{"x", "56 cm", "20 cm"}}}).verdict;
  };
  CHECK(verdict_at(static_cast<int>(lighter->to)) == Verdict::within_limits);
  CHECK(verdict_at(static_cast<int>(lighter->to) + 1) == Verdict::too_full);

  const Plan wool = plan_of(Draft{.fabric = weighing(400), .joins = {{"x", "58 cm", "22 cm"}}});
  const auto *gauged = find<change::ToKind>(wool.remedies);
  REQUIRE(gauged != nullptr);
  CHECK(gauged->becomes == Kind::gauge);

  const Plan packed =
      plan_of(Draft{.fabric = weighing(400), .joins = {{"x", "80 cm", "20 cm", {{.kind = Kind::gauge}}}}});
  CHECK(packed.verdict != Verdict::within_limits);
  const auto *stitch = find<change::ToStitch>(packed.remedies);
  REQUIRE(stitch != nullptr);
  CHECK(stitch->to > 4);
}

TEST_CASE("remedies stand in the order of what they ask of a maker: edges swapped, lengths that move by up to a third, "
          "a stitch, another way of working, another cloth, lengths that move by more") {
  std::mt19937_64 random(23);
  std::map<int, int> met;
  for (int trial = 0; trial < 150; ++trial) {
    INFO("trial " << trial);
    PlanOutcome outcome = plan(job_of(random_advice_job(random)));
    const auto *made = tests::value_in(outcome);
    if (!made) continue;
    for (std::size_t i = 0; i < made->remedies.size(); ++i) {
      const int place = place_in_order(made->remedies[i].change);
      ++met[place];
      if (i == 0 || made->remedies[i].mends != made->remedies[i - 1].mends) continue;
      CHECK(place >= place_in_order(made->remedies[i - 1].change));
    }
  }
  CHECK(met.size() >= 4);
  // 26 cm at most can be gathered into 10 cm of it: a little less cloth, a lighter one, or a band half as long again.
  const Plan full = plan_of(Draft{.fabric = weighing(165), .joins = {{"x", "34 cm", "10 cm"}}});
  std::vector<int> places;
  for (const Remedy &remedy : full.remedies)
    places.push_back(place_in_order(remedy.change));
  CHECK(places == std::vector{1, 1, 3, 4});
  const Plan fuller = plan_of(Draft{.fabric = weighing(165), .joins = {{"x", "38 cm", "10 cm"}}});
  places.clear();
  for (const Remedy &remedy : fuller.remedies)
    places.push_back(place_in_order(remedy.change));
  CHECK(places == std::vector{1, 3, 4, 5}); // 27 cm, gauged, 59 g/m2, a band of 14.1 cm
}

TEST_CASE("no remedy doubles or halves a length where there is any other") {
  std::mt19937_64 random(24);
  int drastic = 0;
  for (int trial = 0; trial < 200; ++trial) {
    INFO("trial " << trial);
    PlanOutcome outcome = plan(job_of(random_advice_job(random)));
    const auto *made = tests::value_in(outcome);
    if (!made) continue;
    for (const Remedy &remedy : made->remedies) {
      if (!is_drastic(remedy.change)) continue;
      ++drastic;
      for (const Remedy &other : made->remedies)
        CHECK((other.mends != remedy.mends || is_drastic(other.change)));
    }
  }
  CHECK(drastic > 0);
  // As it stands the wool takes 1.9 to 1 at most, the band three times as long or the long edge a third of it.
  const Plan little = plan_of(Draft{.fabric = weighing(400), .joins = {{"x", "60 cm", "10 cm"}}});
  REQUIRE_FALSE(little.remedies.empty());
  for (const Remedy &remedy : little.remedies)
    CHECK_FALSE((is_drastic(remedy.change) && !is_drastic(little.remedies.front().change)));
}

TEST_CASE("edges that lie the wrong way round are swapped before anything else, drawn ones too") {
  const auto first = [](EdgeDraft long_edge, EdgeDraft band, std::vector<SegmentDraft> segments) {
    const Plan plan =
        plan_of(Draft{.fabric = weighing(165),
                      .lengths = {{.name = "cuff", .is = "22 cm"}, {"sleeve", "", "40 cm", "60 cm", "50 cm"}},
                      .joins = {{"x", std::move(long_edge), std::move(band), std::move(segments)}}});
    CHECK(plan.verdict == Verdict::cannot_be_gathered);
    return !plan.remedies.empty() && std::holds_alternative<change::Swap>(plan.remedies.front().change);
  };
  CHECK(first("cuff", "sleeve", std::vector<SegmentDraft>(1)));
  CHECK(first("cuff", "sleeve", {{.kind = Kind::flat, .band = "1 cm"}, {}}));
  const DrawnEdge straight{.path = "M 0 0 H 250"};
  CHECK(first(DrawnEdge(straight), "sleeve", std::vector<SegmentDraft>(1)));
  const DrawnEdge bias{.path = "M 0 0 L 300 300"};
  CHECK(first("40 cm", DrawnEdge(bias), {{.kind = Kind::ease}}));
  CHECK_FALSE(first("40 cm", "41 cm", std::vector<SegmentDraft>(1))); // as scant the other way round
}

TEST_CASE("edges swapped as a remedy has them are within limits, written so") {
  const Job job = job_of(
      Draft{.fabric = weighing(165),
            .joins = {{"x", "22 cm", "50 cm", {{.kind = Kind::flat, .band = "1 cm"}, {}}}, {"y", "50 cm", "22 cm"}}});
  const Plan made = plan_of(job);
  REQUIRE_FALSE(made.remedies.empty());
  CHECK(std::get<change::Swap>(made.remedies.front().change).at == JoinId(0));
  CHECK_FALSE(made.remedies.front().mends);
  const Plan swapped = plan_of(
      Draft{.fabric = weighing(165),
            .joins = {{"x", "50 cm", "22 cm", {{.kind = Kind::flat, .band = "1 cm"}, {}}}, {"y", "50 cm", "22 cm"}}});
  CHECK(swapped.verdict == Verdict::within_limits);
}

TEST_CASE("a gauged seam is offered no stitch that gathers would have") {
  const Plan plan = plan_of(Draft{.fabric = weighing(135),
                                  .gathering = stitched(mm(1.5875)),
                                  .joins = {{"x", "120 in", "30 in", {{.kind = Kind::gauge}}}}});
  const auto *stitch = find<change::ToStitch>(plan.remedies);
  REQUIRE(stitch != nullptr);
  CHECK(stitch->to == 4);
  // Too full for gauging, though it could be drawn up: a stitch takes more there too.
  const Plan full = plan_of(Draft{.fabric = weighing(300),
                                  .gathering = stitched(mm(4)),
                                  .joins = {{"x", "80 cm", "20 cm", {{.kind = Kind::gauge}}}}});
  CHECK(full.verdict == Verdict::too_full);
  const auto *longer = find<change::ToStitch>(full.remedies);
  REQUIRE(longer != nullptr);
  CHECK(longer->to == 4.5); // 0.8 * 2 * 4.5 / (3 * 0.6) is 4
}

TEST_CASE("a conflict that edges the wrong way round make is mended by swapping them first") {
  // 50 cm of the long edge are given, and it has 22 cm.
  const Plan plan = plan_of(Draft{
      .fabric = weighing(165),
      .joins = {
          {"x", "22 cm", "50 cm", {{.kind = Kind::flat, .band = "1 cm"}, {.long_edge = "49 cm", .band = "21 cm"}}}}});
  REQUIRE(plan.verdict == Verdict::rules_conflict);
  REQUIRE_FALSE(plan.remedies.empty());
  CHECK(std::get<change::Swap>(plan.remedies.front().change).at == JoinId(0));
}
