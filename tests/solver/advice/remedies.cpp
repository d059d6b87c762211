// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/made_job.hpp"
#include "tests/solver/advice/asked.hpp"
#include "tests/solver/advice/linear_program.hpp"
#include "tests/solver/advice/random_job.hpp"
#include "tests/told.hpp"

#include "solver/advice/change.hpp"
#include "solver/advice/nearest.hpp"
#include "solver/allot/scheme.hpp"
#include "solver/optimum/solver.hpp"

#include <algorithm>
#include <cmath>
#include <map>

using namespace gatherwright;

namespace {

/// The least change of the subject alone, by linear programming: minimise t with t >= q - is and t >= is - q.
tests::Least least_change(const optimum::Problem &problem, int column, double is) {
  optimum::Problem with_change = problem;
  const int change = with_change.unknowns++;
  with_change.at_least.add(std::vector<optimum::Term>{{change, 1.0}, {column, -1.0}}, -is);
  with_change.at_least.add(std::vector<optimum::Term>{{change, 1.0}, {column, 1.0}}, is);
  std::vector<double> cost(with_change.unknowns, 0);
  cost[change] = 1;
  return tests::least_by_glpk(with_change, cost);
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
  const std::vector<double> planned = tests::lengths_of(made);
  const std::vector<JoinId> joins = join ? std::vector{*join} : tests::joins_of(job);
  std::map<LengthId, double> found;
  optimum::Solver solver;
  for (int i = 0; i < static_cast<int>(job.lengths.size()); ++i) {
    if (job.lengths[i].keep) continue;
    const allot::Question question = tests::free_question({LengthId(i)}, planned, joins);
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
    const std::string text = tests::random_advice_job(random);
    INFO(text);
    const Job job = tests::job_of(text);
    PlanOutcome outcome = plan(job);
    const auto *made = std::get_if<Plan>(&outcome);
    if (!made || made->verdict == Verdict::within_limits || made->verdict == Verdict::rules_conflict) continue;
    const std::vector<double> lengths = tests::lengths_of(*made);
    const std::vector<JoinId> joins = tests::joins_of(job);
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
      const allot::Question question = tests::free_question(subject, lengths, joins);
      const auto asked = allot::scheme(job, question);
      REQUIRE(asked);
      const tests::Least least = least_change(asked->scheme.problem, asked->column, is);
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
    const std::string text = tests::random_advice_job(random);
    INFO(text);
    const Job job = tests::job_of(text);
    PlanOutcome outcome = plan(job);
    const auto *made = std::get_if<Plan>(&outcome);
    if (!made || made->verdict == Verdict::within_limits || made->verdict == Verdict::rules_conflict) continue;
    const bool of_whole = made->remedies.empty() || !made->remedies.front().mends;
    std::vector<std::optional<JoinId>> mended{std::nullopt};
    for (const JoinId join : tests::joins_of(job))
      if (!of_whole && made->joins[join.at].verdict != Verdict::within_limits) mended.emplace_back(join);
    for (const std::optional<JoinId> &join : mended) {
      std::map<LengthId, double> offered;
      for (const Remedy &remedy : made->remedies)
        if (const auto *change = std::get_if<change::ToLength>(&remedy.change); change && remedy.mends == join)
          offered.insert_or_assign(change->at, change->to);
      const std::map<LengthId, double> found = lengths_that_mend(job, *made, join);
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
      tests::plan_of(R"({"fabric": {"weight": "165 g/m2", "width": "150 cm"}, "measures": {"neck": "39 cm"},
    "lengths": {"collar": {"is": "neck + 2 cm", "keep": true}, "edge": "cloth_width"},
    "joins": [{"name": "neck", "long": "edge", "band": "collar"}]})");
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
  for (const char *free : {R"({"from": "q - 60 cm"})", R"({"aim": "q - 60 cm"})", R"({"aim": "q - 54 cm"})"}) {
    INFO(free);
    const Plan plan = tests::plan_of(R"({"fabric": {"weight": "165 g/m2"}, "lengths": {"q": "80 cm", "f": )" +
                                     std::string(free) + R"(}, "joins": [{"name": "x", "long": "q", "band": "20 cm"},
      {"name": "y", "long": "f", "band": "12 cm"}]})");
    REQUIRE(plan.verdict == Verdict::too_full);
    CHECK(change_of(plan, LengthId(0)) == nullptr);
    REQUIRE_FALSE(plan.remedies.empty()); // a longer band
  }
}

TEST_CASE("a stretch that is worked otherwise keeps its share and sheds its own limits") {
  const Job job =
      tests::job_of(R"({"fabric": {"weight": "165 g/m2"}, "joins": [{"name": "x", "long": "120 cm", "band": "25 cm",
    "segments": [{"share": 3, "limits": {"least": 1.2, "most": 2}}, {}]}]})");
  const Job changed = advice::with_kind(job, SegmentAt(JoinId(0), 0), Kind::gauge);
  CHECK(changed.joins[0].segments[0].kind == Kind::gauge);
  CHECK(changed.joins[0].segments[0].share == 3);
  CHECK_FALSE(changed.joins[0].segments[0].limits.least);
  CHECK_FALSE(changed.joins[0].segments[0].limits.most);
}

TEST_CASE("a free length changes by the end of its range that binds") {
  // The cuff takes 2.7 * 22 = 59.4 cm at the most and 1.18 * 22 = 25.96 cm at the least.
  const auto planned = [](const std::string &range) {
    return tests::plan_of(R"({"fabric": {"weight": "165 g/m2"}, "lengths": {"cuff": {"is": "22 cm", "keep": true},
      "sleeve": {)" + range +
                          R"(}}, "joins": [{"name": "x", "long": "sleeve", "band": "cuff"}]})");
  };
  const Plan full = planned(R"("from": "70 cm", "to": "90 cm", "aim": "80 cm")");
  REQUIRE(full.verdict == Verdict::too_full);
  REQUIRE_FALSE(full.remedies.empty());
  const auto &shorter = std::get<change::ToLength>(full.remedies[0].change);
  CHECK(shorter.at == LengthId(1));
  CHECK(shorter.to == Approx(594));
  CHECK(shorter.by == Approx(-106));
  const Plan scant = planned(R"("from": "22 cm", "to": "25 cm")");
  REQUIRE(scant.verdict == Verdict::too_scant);
  REQUIRE_FALSE(scant.remedies.empty());
  const auto &longer = std::get<change::ToLength>(scant.remedies[0].change);
  CHECK(longer.at == LengthId(1));
  CHECK(longer.to == Approx(260));
  CHECK(longer.by == Approx(10));
}

TEST_CASE("a conflict is mended by a fixed length or an end of a range that is part of it") {
  const std::string text = R"({"fabric": {"weight": "165 g/m2", "width": "150 cm"},
    "lengths": {"cuff": "40 cm", "turning": "3 cm", "least": "80 cm", "sleeve": {"from": "least", "to": "90 cm"}},
    "rules": ["2 * sleeve + 2 * turning <= cloth_width"], "joins": [{"name": "x", "long": "sleeve", "band": "cuff"}]})";
  const Plan plan = tests::plan_of(text);
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
  const Plan plan = tests::plan_of(R"({"joins": [{"name": "x", "long": "30.5 cm", "band": "30 cm",
    "segments": [{"kind": "flat", "band": "15 cm"}, {"kind": "flat", "band": "15 cm"}]}]})");
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
  const Plan far = tests::plan_of(R"({"joins": [{"name": "x", "long": "40 cm", "band": "30 cm",
    "segments": [{"kind": "flat", "band": "15 cm"}, {"kind": "flat", "band": "15 cm"}]}]})");
  REQUIRE(far.remedies.size() == 1); // 25 cm into 15 cm is not ease
  CHECK(std::get<change::ToEdge>(far.remedies[0].change).at == long_edge);
}

TEST_CASE("a stretch that is gathered too full is mended by easing the plain one beside it, where that takes enough") {
  // At most 20 cm can be gathered into 10 cm. Of 40.5 cm the 20 cm plain leave 20.5 cm, eased by up to 8 % they leave
  // 18.9 cm; of 44 cm they leave 22.4 cm at least.
  const auto plan_of_long = [](const std::string &length) {
    return tests::plan_of(R"({"fabric": {"weight": "165 g/m2"}, "joins": [{"name": "x", "long": ")" + length +
                          R"(", "band": "30 cm", "segments": [{"kind": "flat", "band": "20 cm"},
      {"kind": "gather", "band": "10 cm", "limits": {"least": 1.3, "ideal": 1.6, "most": 2}}]}]})");
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
  const Plan plan =
      tests::plan_of(R"({"fabric": {"weight": "165 g/m2"}, "lengths": {"body": {"is": "144 cm", "keep": true},
    "shoulder": "17 cm", "collar": {"is": "40 cm", "keep": true}, "neck_edge": "body - 2 * shoulder"},
    "joins": [{"name": "neck into collar", "long": "neck_edge", "band": "collar"}]})");
  CHECK(plan.verdict == Verdict::too_full);
  REQUIRE_FALSE(plan.remedies.empty());
  const change::ToLength *shoulder = change_of(plan, LengthId(1));
  REQUIRE(shoulder != nullptr);
  CHECK(shoulder->by == Approx(10));
  CHECK(shoulder->to == Approx(180));
}

TEST_CASE("the nearest cloth weight that would do, a longer stitch and another kind are offered where they mend") {
  const Plan full = tests::plan_of(
      R"({"fabric": {"weight": "165 g/m2"}, "joins": [{"name": "x", "long": "56 cm", "band": "20 cm"}]})");
  const auto *lighter = tests::find<change::ToWeight>(full.remedies);
  REQUIRE(lighter != nullptr);
  CHECK(lighter->to < 165);
  const std::string at = std::to_string(static_cast<int>(lighter->to));
  const auto verdict_at = [](int grams) {
    return tests::plan_of("{\"fabric\": {\"weight\": \"" + std::to_string(grams) +
                          " g/m2\"}, \"joins\": [{\"name\": \"x\", \"long\": \"56 cm\", \"band\": \"20 cm\"}]}")
        .verdict;
  };
  CHECK(verdict_at(static_cast<int>(lighter->to)) == Verdict::within_limits);
  CHECK(verdict_at(static_cast<int>(lighter->to) + 1) == Verdict::too_full);

  const Plan wool = tests::plan_of(
      R"({"fabric": {"weight": "400 g/m2"}, "joins": [{"name": "x", "long": "58 cm", "band": "22 cm"}]})");
  const auto *gauged = tests::find<change::ToKind>(wool.remedies);
  REQUIRE(gauged != nullptr);
  CHECK(gauged->becomes == Kind::gauge);

  const Plan packed = tests::plan_of(
      R"({"fabric": {"weight": "400 g/m2"}, "joins": [{"name": "x", "long": "80 cm", "band": "20 cm", "segments": [{"kind": "gauge"}]}]})");
  CHECK(packed.verdict != Verdict::within_limits);
  const auto *stitch = tests::find<change::ToStitch>(packed.remedies);
  REQUIRE(stitch != nullptr);
  CHECK(stitch->to > 4);
}
