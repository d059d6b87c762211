// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/draft.hpp"
#include "tests/outcomes.hpp"
#include "tests/solver/advice/random_job.hpp"
#include "tests/told.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <random>
#include <string>
#include <variant>

using namespace gatherwright;
using namespace gatherwright::tests;

namespace {

/// The job with one length at a value and every other free one as it was planned.
Job moved(const Job &job, const Plan &plan, int length, double value) {
  Job changed = job;
  for (int i = 0; i < static_cast<int>(changed.lengths.size()); ++i)
    if (i == length || changed.lengths[i].free())
      changed.lengths[i].is = Formula::of({i == length ? value : plan.lengths[i].is.value()}, "");
  return changed;
}

struct Figures {
  double measured = 0;
  double limit = 0;
};

Figures figures_of(const Finding &finding) {
  struct {
    Figures operator()(const finding::PastLimit &of) const { return {of.fullness, of.allowed}; }
    Figures operator()(const finding::LessThanBand &of) const { return {of.long_length, of.band}; }
    Figures operator()(const finding::RuleBroken &of) const { return {of.left, of.right}; }
    Figures operator()(const finding::TooWide &of) const { return {of.cut_across, of.usable}; }
    Figures operator()(const finding::PastTheEnd &of) const { return {of.end, of.side}; }
    Figures operator()(const finding::Overlaps &of) const { return {of.begins, of.other_end}; }
    Figures operator()(const finding::OverStock &of) const { return {of.buy, of.stock}; }
  } figures;
  return std::visit(figures, finding);
}

bool is_of_same(const Finding &a, const Finding &b) {
  if (a.index() != b.index()) return false;
  return std::visit([&](const auto &one) { return one.at == std::get<std::decay_t<decltype(one)>>(b).at; }, a);
}

/// How the job turns out beyond an end, and whether that is what was told.
struct Beyond {
  const Job &job;
  const Plan &plan;
  int length;
  double value;

  PlanOutcome outcome() const { return gatherwright::plan(moved(job, plan, length, value), {.advice = false}); }

  std::string operator()(const Finding &told) const {
    const PlanOutcome outcome = this->outcome();
    if (!outcome) return "refused";
    for (const Finding &found : outcome->findings) {
      if (!is_of_same(told, found)) continue;
      const Figures as_told = figures_of(told), as_found = figures_of(found);
      CHECK(as_told.measured == Approx(as_found.measured).epsilon(1e-6));
      CHECK(as_told.limit == Approx(as_found.limit).epsilon(1e-6));
      return "finding";
    }
    return "not found";
  }
  std::string operator()(const Condition &told) const {
    if (const auto *range = std::get_if<condition::InRange>(&told)) {
      CHECK(job[range->at].free());
      return "range";
    }
    const PlanOutcome outcome = this->outcome();
    return outcome && outcome->verdict == Verdict::rules_conflict ? "conflict" : "no conflict";
  }
  std::string operator()(const BelowNothing &) const { return "nothing"; }
  std::string operator()(const Refusal &) const { return outcome() ? "not refused" : "refusal"; }
};

std::optional<double> end_of(const Interval &room, int which) {
  return which == 0 ? room.low : room.high;
}

} // namespace

TEST_CASE("what binds at an end of a room is what does not hold one step of the tape beyond it") {
  std::mt19937_64 random(71);
  std::map<std::string, int> told;
  int ends = 0;
  for (int trial = 0; trial < 500; ++trial) {
    const Job job = job_of(trial % 2 == 0 ? random_job_with_pieces(random) : random_advice_job(random, true));
    const PlanOutcome outcome = gatherwright::plan(job);
    if (!outcome || outcome->verdict == Verdict::rules_conflict) continue;
    const Plan &plan = *outcome;
    for (int i = 0; i < static_cast<int>(plan.lengths.size()); ++i) {
      const LengthPlan &length = plan.lengths[i];
      for (int which = 0; which < 2; ++which) {
        const auto end = length.room ? end_of(*length.room, which) : std::nullopt;
        const std::optional<Binding> &binds = length.binds[which];
        if (!end) {
          CHECK_FALSE(binds);
          continue;
        }
        ++ends;
        if (!binds) {
          ++told["unknown"];
          continue;
        }
        INFO("trial " << trial << ", " << job.lengths[i].name << (which == 0 ? " from " : " to ") << *end);
        const double step = job.tape_step.mm;
        const double beyond = which == 0 ? std::max(*end - step, *end / 2) : *end + step;
        const std::string seen = std::visit(Beyond{job, plan, i, beyond}, *binds);
        CHECK((seen == "finding" || seen == "range" || seen == "conflict" || seen == "nothing" || seen == "refusal"));
        ++told[seen];
      }
    }
  }
  CHECK(ends > 1000);
  CHECK(told["finding"] > 500);
  CHECK(told["range"] > 20);
  CHECK(told["nothing"] > 50);
  CHECK(told["refusal"] > 5);
  CHECK(told["unknown"] <= ends / 50);
}

TEST_CASE("an end of its own range binds a length, and another's range that is made of it") {
  const Job job = job_of({.fabric = weighing(165),
                          .lengths = {{.name = "sleeve", .from = "45 cm", .to = "60 cm", .aim = "52 cm"},
                                      {.name = "most", .is = "30 cm"},
                                      {.name = "slit", .from = "5 cm", .to = "most", .aim = "20 cm"}},
                          .joins = {{"sleeve into cuff", "sleeve", "24 cm"}}});
  const Plan plan = plan_of(job);
  const auto binds = [&](int length, int end) -> const condition::InRange * {
    const auto &binding = plan.lengths[length].binds[end];
    const auto *asked = binding ? std::get_if<Condition>(&*binding) : nullptr;
    return asked ? std::get_if<condition::InRange>(asked) : nullptr;
  };
  using End = condition::InRange::End;
  REQUIRE(binds(0, 0));
  CHECK(binds(0, 0)->at == LengthId(0));
  CHECK(binds(0, 0)->end == End::from);
  REQUIRE(binds(1, 0)); // were it shorter than the slit as planned
  CHECK(binds(1, 0)->at == LengthId(2));
  CHECK(binds(1, 0)->end == End::to);
  REQUIRE(binds(2, 1));
  CHECK(binds(2, 1)->at == LengthId(2));
}

TEST_CASE("a rule whose name has a million letters is not told at the end of every room") {
  Draft draft{.fabric = weighing(165), .joins = {{"sleeve into cuff", "52 cm", "24 cm"}}};
  constexpr int lengths = 60;
  std::string sum = "0 cm";
  for (int i = 0; i < lengths; ++i) {
    const std::string name = "tuck" + std::to_string(i);
    draft.lengths.push_back({.name = name, .from = "10 cm", .to = "1 m", .aim = "50 cm"});
    sum += " + " + name;
  }
  draft.rules = {sum + " <= 30.2 m"};
  Job job = job_of(draft);
  const auto named = [&](std::string name) {
    job.rules[0].name = std::move(name);
    const Plan plan = plan_of(job);
    std::size_t letters = 0;
    for (const LengthPlan &length : plan.lengths)
      if (length.binds[1])
        letters += job[std::get<finding::RuleBroken>(std::get<Finding>(*length.binds[1])).at].name.size();
    const bool left_out = std::any_of(plan.notes.begin(), plan.notes.end(), [](const Note &note) {
      const auto *out = std::get_if<note::LeftOut>(&note);
      return out && out->what == note::LeftOut::What::rooms;
    });
    return std::pair(letters, left_out);
  };
  CHECK(named("tucks") == std::pair(std::size_t{5 * lengths}, false));
  const auto [letters, left_out] = named(std::string(1'000'000, 'x'));
  CHECK(letters > 10'000'000);
  CHECK(letters <= 21'000'000);
  CHECK(left_out);
}
