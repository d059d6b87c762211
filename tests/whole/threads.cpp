// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/plan_json.hpp"
#include "tests/good_jobs.hpp"

#include <string>
#include <thread>
#include <vector>

using namespace gatherwright;

namespace {

std::string planned(const Job &job) {
  const PlanOutcome outcome = plan(job, {.profile = true});
  return report::plan_json(job, *outcome);
}

} // namespace

TEST_CASE("plans made in several threads at once have the bytes of those made one after another", "[threads]") {
  const std::vector<Job> jobs = tests::good_jobs();
  REQUIRE(jobs.size() >= 20);
  std::vector<std::string> alone;
  for (const Job &job : jobs)
    alone.push_back(planned(job));

  constexpr std::size_t threads = 4;
  constexpr std::size_t rounds = 10;
  std::vector<std::vector<std::string>> together(threads, std::vector<std::string>(jobs.size()));
  {
    std::vector<std::jthread> working;
    for (std::size_t thread = 0; thread < threads; ++thread)
      working.emplace_back([&, thread] {
        // Each thread begins elsewhere, so that different jobs are planned at the same time; half of them meet.
        for (std::size_t i = 0; i < rounds * jobs.size(); ++i) {
          const std::size_t job = (i + thread / 2 * jobs.size() / 2) % jobs.size();
          together[thread][job] = planned(jobs[job]);
        }
      });
  }
  for (const auto &made : together)
    CHECK(made == alone);
}
