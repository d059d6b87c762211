// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/made_job.hpp"
#include "tests/solver/advice/linear_program.hpp"
#include "tests/solver/advice/random_job.hpp"

#include "solver/advice/change.hpp"
#include "solver/advice/nearest.hpp"
#include "solver/allot/scheme.hpp"
#include "solver/optimum/solver.hpp"

#include <cmath>
#include <map>
#include <numeric>

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

/// Every length that may be changed, tried in the whole job: to what it would have to be for one join, or for all (-1).
std::map<int, double> lengths_that_mend(const Job &job, const Plan &made, int join) {
  std::vector<double> planned;
  for (const LengthPlan &length : made.lengths)
    planned.push_back(length.is);
  std::vector<int> joins(job.joins.size());
  std::iota(joins.begin(), joins.end(), 0);
  if (join >= 0) joins = {join};
  std::map<int, double> found;
  optimum::Solver solver;
  for (int i = 0; i < static_cast<int>(job.lengths.size()); ++i) {
    if (job.lengths[i].keep) continue;
    allot::Question question;
    question.subject.length = i;
    question.planned = planned;
    question.others_held = false;
    question.within_range = false;
    question.joins = joins;
    const auto exact = advice::nearest_value(job, question, {}, planned[i], solver);
    if (!exact || std::abs(*exact - planned[i]) <= advice::on_step * job.tape_step.mm) continue;
    for (const double to : advice::steps_beyond(planned[i], *exact, job.tape_step.mm)) {
      if (!(to > 0)) continue;
      optimum::Work work;
      const auto again = advice::planned_again(advice::with_length(job, question.subject, planned[i], to), {}, work);
      if (!again || !advice::mended(*again, join)) continue;
      found[i] = to;
      break;
    }
  }
  return found;
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
    std::vector<double> lengths;
    for (const LengthPlan &length : made->lengths)
      lengths.push_back(length.is);
    std::vector<int> joins;
    for (std::size_t j = 0; j < job.joins.size(); ++j)
      joins.push_back(static_cast<int>(j));
    double before = 0;
    for (const Remedy &remedy : made->remedies) {
      ++remedies;
      const bool of_length = remedy.kind == Remedy::Kind::length;
      if (!of_length && remedy.kind != Remedy::Kind::long_edge && remedy.kind != Remedy::Kind::band) continue;
      allot::Subject subject;
      subject.length = remedy.length;
      if (!of_length) {
        subject.join = remedy.edge_join;
        subject.of_band = remedy.kind == Remedy::Kind::band;
      }
      const double is = remedy.to - remedy.by;
      optimum::Work work;
      const auto again = advice::planned_again(advice::with_length(job, subject, is, remedy.to), {}, work);
      REQUIRE(again);
      CHECK(advice::mended(*again, remedy.join));
      if (remedy.join >= 0) continue;
      CHECK(std::abs(remedy.by) / is >= before - 1e-12);
      before = std::abs(remedy.by) / is;
      allot::Question question;
      question.subject = subject;
      question.planned = lengths;
      question.others_held = false;
      question.within_range = false;
      question.joins = joins;
      const auto asked = allot::scheme(job, question);
      REQUIRE(asked);
      const tests::Least least = least_change(asked->scheme.problem, asked->column, is);
      REQUIRE(least.bounded);
      // `to` is the first or second step at or beyond the exact change.
      CHECK(std::abs(remedy.by) >= least.value - 1e-4);
      CHECK(std::abs(remedy.by) <= least.value + 2 * job.tape_step.mm + 1e-4);
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
    const bool of_whole = made->remedies.empty() || made->remedies.front().join < 0;
    for (int j = -1; j < static_cast<int>(job.joins.size()); ++j) {
      if (j >= 0 && (of_whole || made->joins[j].verdict == Verdict::within_limits)) continue;
      std::map<int, double> offered;
      for (const Remedy &remedy : made->remedies)
        if (remedy.kind == Remedy::Kind::length && remedy.join == j) offered[remedy.length] = remedy.to;
      const std::map<int, double> found = lengths_that_mend(job, *made, j);
      CHECK(offered.size() == found.size());
      for (const auto &[length, to] : found) {
        REQUIRE(offered.count(length) == 1);
        CHECK(offered[length] == Approx(to).epsilon(1e-12));
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
    if (remedy.kind != Remedy::Kind::length) continue;
    CHECK(remedy.length == 1);
    CHECK(remedy.to == Approx(2.7 * 410).margin(1));
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
    CHECK(std::none_of(plan.remedies.begin(), plan.remedies.end(),
                       [](const Remedy &r) { return r.kind == Remedy::Kind::length && r.length == 0; }));
    REQUIRE_FALSE(plan.remedies.empty()); // a longer band
  }
}

TEST_CASE("a stretch that is worked otherwise keeps its share and sheds its own limits") {
  const Job job =
      tests::job_of(R"({"fabric": {"weight": "165 g/m2"}, "joins": [{"name": "x", "long": "120 cm", "band": "25 cm",
    "segments": [{"share": 3, "limits": {"least": 1.2, "most": 2}}, {}]}]})");
  const Job changed = advice::with_kind(job, 0, 0, Kind::gauge);
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
  CHECK(full.remedies[0].length == 1);
  CHECK(full.remedies[0].to == Approx(594));
  CHECK(full.remedies[0].by == Approx(-106));
  const Plan scant = planned(R"("from": "22 cm", "to": "25 cm")");
  REQUIRE(scant.verdict == Verdict::too_scant);
  REQUIRE_FALSE(scant.remedies.empty());
  CHECK(scant.remedies[0].length == 1);
  CHECK(scant.remedies[0].to == Approx(260));
  CHECK(scant.remedies[0].by == Approx(10));
}

TEST_CASE("a conflict is mended by a fixed length or an end of a range that is part of it") {
  const std::string text = R"({"fabric": {"weight": "165 g/m2", "width": "150 cm"},
    "lengths": {"cuff": "40 cm", "turning": "3 cm", "least": "80 cm", "sleeve": {"from": "least", "to": "90 cm"}},
    "rules": ["2 * sleeve + 2 * turning <= cloth_width"], "joins": [{"name": "x", "long": "sleeve", "band": "cuff"}]})";
  const Plan plan = tests::plan_of(text);
  REQUIRE(plan.verdict == Verdict::rules_conflict);
  // 150 cm less twice 3 cm leaves 72 cm for each sleeve; with nothing turned it would still be only 75 cm.
  REQUIRE(plan.remedies.size() == 2);
  for (const Remedy &remedy : plan.remedies) {
    CHECK(remedy.kind == Remedy::Kind::length);
    CHECK(remedy.to == Approx(720));
    CHECK(remedy.by == Approx(-80));
  }
  CHECK(plan.remedies[0].length == 2); // least
  CHECK(plan.remedies[1].length == 3); // sleeve
}

TEST_CASE("plain stretches that do not come to the long edge are mended by that edge, or by easing one of them") {
  const Plan plan = tests::plan_of(R"({"joins": [{"name": "x", "long": "30.5 cm", "band": "30 cm",
    "segments": [{"kind": "flat", "band": "15 cm"}, {"kind": "flat", "band": "15 cm"}]}]})");
  REQUIRE(plan.verdict == Verdict::rules_conflict);
  REQUIRE(plan.remedies.size() == 3);
  CHECK(plan.remedies[0].kind == Remedy::Kind::long_edge);
  CHECK(plan.remedies[0].to == Approx(300));
  CHECK(plan.remedies[0].by == Approx(-5));
  for (const int segment : {0, 1}) { // 15.5 cm into 15 cm
    const Remedy &remedy = plan.remedies[1 + segment];
    CHECK(remedy.kind == Remedy::Kind::kind);
    CHECK(remedy.segment == segment);
    CHECK(remedy.becomes == Kind::ease);
  }
  const Plan far = tests::plan_of(R"({"joins": [{"name": "x", "long": "40 cm", "band": "30 cm",
    "segments": [{"kind": "flat", "band": "15 cm"}, {"kind": "flat", "band": "15 cm"}]}]})");
  REQUIRE(far.remedies.size() == 1); // 25 cm into 15 cm is not ease
  CHECK(far.remedies[0].kind == Remedy::Kind::long_edge);
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
    return std::count_if(plan.remedies.begin(), plan.remedies.end(),
                         [](const Remedy &r) { return r.kind == Remedy::Kind::kind && r.becomes == Kind::ease; });
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
  const auto shoulder = std::find_if(plan.remedies.begin(), plan.remedies.end(),
                                     [](const Remedy &r) { return r.kind == Remedy::Kind::length && r.length == 1; });
  REQUIRE(shoulder != plan.remedies.end());
  CHECK(shoulder->by == Approx(10));
  CHECK(shoulder->to == Approx(180));
}

TEST_CASE("the nearest cloth weight that would do, a longer stitch and another kind are offered where they mend") {
  const auto offers = [](const Plan &plan, Remedy::Kind kind) {
    return std::find_if(plan.remedies.begin(), plan.remedies.end(), [&](const Remedy &r) { return r.kind == kind; });
  };
  const Plan full = tests::plan_of(
      R"({"fabric": {"weight": "165 g/m2"}, "joins": [{"name": "x", "long": "56 cm", "band": "20 cm"}]})");
  const auto lighter = offers(full, Remedy::Kind::cloth_weight);
  REQUIRE(lighter != full.remedies.end());
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
  const auto gauged = offers(wool, Remedy::Kind::kind);
  REQUIRE(gauged != wool.remedies.end());
  CHECK(gauged->becomes == Kind::gauge);

  const Plan packed = tests::plan_of(
      R"({"fabric": {"weight": "400 g/m2"}, "joins": [{"name": "x", "long": "80 cm", "band": "20 cm", "segments": [{"kind": "gauge"}]}]})");
  CHECK(packed.verdict != Verdict::within_limits);
  const auto stitch = offers(packed, Remedy::Kind::stitch);
  REQUIRE(stitch != packed.remedies.end());
  CHECK(stitch->to > 4);
}
