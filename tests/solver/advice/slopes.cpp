// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/advice/slopes.hpp"

#include "tests/draft.hpp"
#include "tests/solver/advice/random_job.hpp"

#include <random>
#include <string>
#include <vector>

using namespace gatherwright;
using namespace gatherwright::tests;

TEST_CASE("a formula's line by a length is what its values are as the length moves") {
  std::mt19937_64 random(88);
  const std::vector<std::string> written{"a",         "3 cm",          "c - a / 2",     "2 * (a + b) - c",
                                         "f / 4 + p", "p * p / 1 mm",  "max(a, 2 * b)", "a * (b / p) - 3 * p",
                                         "q + r",     "(a - a) + 5 mm"};
  int lines = 0;
  int moving = 0;
  int none = 0;
  for (int round = 0; round < 20; ++round) {
    Draft draft = random_advice_job(random);
    draft.lengths.push_back({"q", "c + 2 * p - p"});
    draft.lengths.push_back({"r", "q * (b / a)"});
    draft.rules.clear();
    for (const std::string &each : written)
      draft.rules.push_back(each + " <= 90000 m");
    const Job job = job_of(draft);
    const PlanOutcome planned = plan(job, {.advice = false});
    if (!planned || planned->verdict == Verdict::rules_conflict) continue;
    optimum::Work work;
    advice::Slopes slopes(job, *planned, work);
    std::vector<advice::ReadFormula> read;
    for (const Rule &rule : job.rules)
      read.push_back(slopes.read(&rule.holds.left));
    const advice::Dependents dependents(job);
    for (int length = 0; length < static_cast<int>(job.lengths.size()); ++length) {
      const advice::Dependence on_it = dependents.of(length);
      if (slopes.follow(on_it))
        for (std::size_t r = 0; r < read.size(); ++r) {
          const Formula &formula = job.rules[r].holds.left;
          INFO(formula.written() << " by " << job.lengths[length].name);
          advice::Line line;
          if (!slopes.line_of(read[r], line)) {
            ++none;
            continue;
          }
          ++lines;
          moving += line.slope != 0 ? 1 : 0;
          CHECK((line.slope == 0 || slopes.moves(read[r])));
          for (const double by : {0.0, 1.0, -7.5}) {
            const auto value = slopes.value_at(slopes.planned(LengthId(length)) + by, formula, on_it);
            REQUIRE(value);
            // A dozen operations on figures below some ten thousand.
            CHECK(line.at + by * line.slope == Approx(*value).margin(1e-9));
          }
        }
      slopes.stay(on_it);
      for (const advice::ReadFormula &each : read)
        CHECK_FALSE(slopes.moves(each));
    }
  }
  CHECK(lines > 500);
  CHECK(moving > 150);
  CHECK(none > 30);
}
