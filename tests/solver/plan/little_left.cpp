// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/draft.hpp"
#include "tests/told.hpp"

#include <cmath>
#include <string>

using namespace gatherwright;
using namespace gatherwright::tests;

namespace {

Draft two_sums(const std::string &coefficient, const std::string &second) {
  return {.lengths = {{.name = "x", .aim = "30 cm"}, {.name = "y", .aim = "40 cm"}},
          .rules = {"x + y = 60 cm", coefficient + " * x + y = " + second},
          .joins = {{"a", "x", "12 cm"}, {"b", "y", "15 cm"}}};
}

} // namespace

TEST_CASE("rules that say almost the same are planned by what both say, never below 0") {
  for (const char *coefficient : {"1.000001", "1.0000001", "1.00000001", "1.0000000001"}) {
    INFO(coefficient);
    const Plan plan = plan_of(two_sums(coefficient, "60 cm"));
    CHECK(plan.lengths[0].is == 0);
    CHECK(plan.lengths[1].is == 600);
    REQUIRE(plan.certificate);
    CHECK(plan.certificate->feasibility <= 1e-9);
    CHECK(plan.verdict == Verdict::cannot_be_gathered);
  }
}

TEST_CASE("rules that no digits can tell apart are refused by name") {
  const auto refused = only_refusal<refusal::Indistinct>(plan(job_of(two_sums("1.000000000001", "70 cm"))));
  REQUIRE(refused.conditions.has_value());
  const auto *first = std::get_if<condition::Holds>(&refused.conditions->front());
  const auto *second = std::get_if<condition::Holds>(&refused.conditions->back());
  REQUIRE(first != nullptr);
  REQUIRE(second != nullptr);
  CHECK(first->at == RuleId(0));
  CHECK(second->at == RuleId(1));
  CHECK(path_of(place_of(refused)) == "rule 1");
}

TEST_CASE("what is made of a free length is never below 0, not even by rounding") {
  SECTION("the length stays as far from its end as that takes") {
    const Plan plan =
        plan_of(Draft{.lengths = {{.name = "a", .aim = "30 cm"}, {"b", "a - 50 cm"}}, .joins = {{"j", "a", "20 cm"}}});
    CHECK(plan.lengths[0].is.value() == Approx(500));
    CHECK(plan.lengths[1].is.value() >= 0);
  }
  SECTION("what rounding leaves of 0 is 0") {
    const Plan plan = plan_of(Draft{.lengths = {{.name = "a", .from = "10 cm", .to = "10 cm"}, {"b", "a * 0.3 - 3 cm"}},
                                    .joins = {{"j", "b", "5 cm"}}});
    CHECK(plan.lengths[1].is == 0);
    CHECK_FALSE(std::signbit(plan.lengths[1].is.value()));
    CHECK(plan.joins[0].verdict == Verdict::cannot_be_gathered);
    for (const Mark &mark : plan.joins[0].marks)
      CHECK(mark.long_edge.tape == 0);
  }
  SECTION("and a band of it is refused") {
    const PlanOutcome outcome =
        plan(job_of(Draft{.lengths = {{.name = "a", .from = "10 cm", .to = "10 cm"}, {"b", "a * 0.3 - 3 cm"}},
                          .joins = {{"j", "5 cm", "b"}}}));
    REQUIRE_FALSE(outcome);
  }
}

TEST_CASE("an answer that is right is not told to be doubtful") {
  const Plan plan = plan_of(Draft{.lengths = {{"front"}, {.name = "a", .aim = "73.1 cm"}},
                                  .rules = {"a * 0.5 = 35 cm"},
                                  .joins = {{"j", "front", "30 cm"}}});
  CHECK(count<note::Unproved>(plan.notes) == 0);
}

TEST_CASE("a plan that is not proved to be best keeps what must hold, has no certificate and says so") {
  // Lengths that differ by millions in what they weigh: not every such job can be proved in the digits that there are.
  const Draft drafts[] = {
      {.lengths = {{.name = "a", .to = "1000 m"}, {.name = "b", .from = "0.001 mm"}},
       .rules = {"0.1 * b + 0.000001 * a = 349.37 mm"},
       .joins = {{"frill", "0.1 * b", "20 cm", {{}, {}}}}},
      {.lengths = {{.name = "a", .to = "1000 m"}, {.name = "b", .from = "0 cm", .to = "1000 m"}},
       .rules = {"1000000 * a + 0.1 * b <= 773 mm"},
       .joins = {{"frill", "0.000001 * a", "20 cm", {{}, {}, {}}}}},
      {.lengths = {{.name = "a", .from = "30 cm", .to = "1000 m", .aim = "46.93 cm"}, {.name = "b", .to = "80 cm"}},
       .rules = {"a - 1000000 * b >= 84.437 cm"},
       .joins = {{"frill", "0.9999999 * a", "20 cm", {{}, {}}}}},
  };
  int unproved = 0;
  for (const Draft &draft : drafts) {
    INFO(draft.rules[0]);
    const Plan plan = plan_of(draft);
    CHECK(plan.rules[0].holds);
    const auto *note = find<note::Unproved>(plan.notes);
    CHECK((note != nullptr) == !plan.certificate);
    if (!note) continue;
    CHECK_FALSE(note->missed);
    ++unproved;
  }
  CHECK(unproved > 0);
}
