// SPDX-License-Identifier: GPL-3.0-or-later
// What findings, remedies and conflicts promise, held against plans of jobs that were changed by hand.

#include "tests/draft.hpp"
#include "tests/outcomes.hpp"
#include "tests/solver/advice/random_job.hpp"
#include "tests/told.hpp"

#include <random>

using namespace gatherwright;
using namespace gatherwright::tests;

namespace {

Formula length_of(double mm) {
  return Formula::of({mm}, "a length");
}

/// Makes a change in a job as a maker would.
struct Made {
  Job &job;

  void operator()(const change::Swap &change) const {
    Join &join = job.joins.at(change.at.at);
    std::swap(join.long_edge, join.band);
  }
  void operator()(const change::ToLength &change) const {
    NamedLength &length = job.lengths.at(change.at.at);
    auto *free = std::get_if<FreeLength>(&length.is);
    if (!free) {
      length.is = length_of(change.to);
      return;
    }
    // The end of the range that was left, which the change says by how much it moves.
    const double was = change.to - change.by;
    for (std::optional<Formula> *end : {&free->from, &free->to}) {
      const bool this_end = *end && std::abs(evaluate(**end, values())->constant - was) < 1e-6;
      if (this_end) *end = length_of(change.to);
    }
  }
  void operator()(const change::ToEdge &change) const {
    Join &join = job.joins.at(change.at.join.at);
    (change.at.edge == WhichEdge::band ? join.band : join.long_edge).is = length_of(change.to);
  }
  void operator()(const change::ToWeight &change) const {
    job.fabric.weight = Weight{change.to};
    for (Join &join : job.joins)
      if (!join.own_weight) join.fabric.weight = Weight{change.to};
  }
  void operator()(const change::ToStitch &change) const {
    job.joins.at(change.at.at).gathering.stitch = Length{change.to};
  }
  void operator()(const change::ToClothLength &change) const {
    const Cloths cloths = cloths_of(job);
    for (std::size_t p = 0; p < job.pieces.size(); ++p)
      if (cloths.of_piece[p] == change.at.at) job.pieces[p].fabric.stock->is = Length{change.to};
  }
  void operator()(const change::ToKind &change) const {
    Segment &segment = job.joins.at(change.at.join.at).segments.at(change.at.segment);
    segment.kind = change.becomes;
    segment.limits = {};
    if (!may_be_spread(change.becomes)) segment.spread = Even{};
  }

  /// Every symbol by its formula, where that is of no other.
  std::vector<Affine> values() const {
    std::vector<Affine> values(job.symbols());
    for (const Measure &measure : job.measures)
      values[&measure - job.measures.data()] = {measure.is.mm, {}};
    return values;
  }
};

/// The plan of a job that was changed so; nothing where it cannot be planned or its rules conflict.
std::optional<Plan> planned_with(Job job, const Change &change) {
  std::visit(Made{job}, change);
  PlanOutcome outcome = plan(job, {.advice = false});
  const auto *made = tests::value_in(outcome);
  if (!made || made->verdict == Verdict::rules_conflict) return std::nullopt;
  return *made;
}

bool mends(const Job &job, const Remedy &remedy) {
  const auto again = planned_with(job, remedy.change);
  if (!again) return false;
  if (!remedy.mends) return again->verdict == Verdict::within_limits;
  return again->joins.at(remedy.mends->at).verdict == Verdict::within_limits;
}

} // namespace

TEST_CASE("each remedy brings the job, or the join that it mends, within limits") {
  std::mt19937_64 random(31);
  int tried = 0;
  int of_a_join = 0;
  for (int trial = 0; trial < 200; ++trial) {
    INFO("trial " << trial);
    const Job job = job_of(random_advice_job(random));
    const PlanOutcome outcome = plan(job);
    const auto *made = tests::value_in(outcome);
    if (!made) continue;
    for (const Remedy &remedy : made->remedies) {
      INFO("a change of kind " << remedy.change.index());
      CHECK(mends(job, remedy));
      ++tried;
      of_a_join += remedy.mends.has_value();
    }
  }
  CHECK(tried > 150);
  CHECK(of_a_join > 30);
}

TEST_CASE("planned with either edge as it alone would have to be, a join is within limits") {
  std::mt19937_64 random(32);
  int tried = 0;
  for (int trial = 0; trial < 200; ++trial) {
    INFO("trial " << trial);
    const Job job = job_of(random_advice_job(random));
    const PlanOutcome outcome = plan(job);
    const auto *made = tests::value_in(outcome);
    if (!made) continue;
    for (const Finding &finding : made->findings) {
      if (std::holds_alternative<finding::RuleBroken>(finding)) continue;
      const auto *past = std::get_if<finding::PastLimit>(&finding);
      const JoinId join = past ? past->at.join : std::get<finding::LessThanBand>(finding).at.join;
      const finding::EdgesAlone &alone = alone_of(finding);
      for (const WhichEdge edge : {WhichEdge::long_edge, WhichEdge::band}) {
        const auto &length = edge == WhichEdge::band ? alone.band : alone.long_edge;
        if (!length) continue;
        INFO(job[join].name << (edge == WhichEdge::band ? ", band " : ", long edge ") << *length);
        const auto again = planned_with(job, change::ToEdge{EdgeAt(join, edge), 0, *length});
        REQUIRE(again);
        CHECK(again->joins.at(join.at).verdict == Verdict::within_limits);
        ++tried;
      }
    }
  }
  CHECK(tried > 100);
}

namespace {

/// Whether some of a job's conditions can hold together: its rules and ends of ranges that are kept.
bool can_hold(Job job, const std::vector<Condition> &kept) {
  std::vector<Rule> rules;
  std::vector<FreeLength> ranges(job.lengths.size());
  for (const Condition &condition : kept) {
    if (const auto *rule = std::get_if<condition::Holds>(&condition)) rules.push_back(job[rule->at]);
    if (const auto *range = std::get_if<condition::InRange>(&condition)) {
      const FreeLength &whole = *job[range->at].free();
      FreeLength &free = ranges.at(range->at.at);
      (range->end == condition::InRange::End::from ? free.from : free.to) =
          range->end == condition::InRange::End::from ? whole.from : whole.to;
    }
  }
  for (std::size_t i = 0; i < ranges.size(); ++i)
    job.lengths[i].is = ranges[i];
  job.rules = rules;
  return plan_of(job, {.advice = false}).verdict != Verdict::rules_conflict;
}

} // namespace

TEST_CASE("the conditions of a conflict cannot all hold, and without any one of them the others can") {
  std::mt19937_64 random(33);
  const auto whole = [&random](int low, int high) { return std::uniform_int_distribution<int>(low, high)(random); };
  int conflicts = 0;
  for (int trial = 0; trial < 300; ++trial) {
    INFO("trial " << trial);
    Draft draft{.joins = {{"j", "a", "10 cm"}}};
    for (const char *name : {"a", "b", "c"})
      draft.lengths.push_back(
          {.name = name, .from = std::to_string(whole(10, 30)) + " cm", .to = std::to_string(whole(31, 60)) + " cm"});
    const std::string names[] = {"a", "b", "c"};
    for (int rule = whole(1, 4); rule > 0; --rule)
      draft.rules.push_back(names[whole(0, 2)] + " + " + std::to_string(whole(0, 2)) + " * " + names[whole(0, 2)] +
                            (whole(0, 1) ? " <= " : " >= ") + names[whole(0, 2)] + " + " +
                            std::to_string(whole(0, 40)) + " cm");
    const Job job = job_of(draft);
    const Plan plan = plan_of(job);
    if (!plan.conflict) continue;
    ++conflicts;
    const std::vector<Condition> &conditions = plan.conflict->conditions;
    CHECK(plan.conflict->apart > 0);
    CHECK_FALSE(can_hold(job, conditions));
    for (std::size_t left_out = 0; left_out < conditions.size(); ++left_out) {
      std::vector<Condition> others = conditions;
      others.erase(others.begin() + static_cast<std::ptrdiff_t>(left_out));
      CHECK(can_hold(job, others));
    }
  }
  CHECK(conflicts > 30);
}
