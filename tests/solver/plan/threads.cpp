// SPDX-License-Identifier: GPL-3.0-or-later
#include "made_job.hpp"
#include "report/plan_json.hpp"
#include "where.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <thread>
#include <vector>

using namespace gatherwright;

namespace {

/// Every good job that the tests have: gathered, gauged and drawn edges, rings, conflicts, remedies.
std::vector<Job> good_jobs() {
  std::vector<std::filesystem::path> paths;
  for (const std::string &folder : {test_data("worked"), in_project("cli/start"), in_project("docs/examples")})
    for (const auto &entry : std::filesystem::directory_iterator(folder)) {
      const std::string name = entry.path().filename().string();
      if (name.find(".json") != std::string::npos && name.find("expected") == std::string::npos &&
          !name.starts_with("bad-"))
        paths.push_back(entry.path());
    }
  std::sort(paths.begin(), paths.end());
  std::vector<Job> jobs;
  for (const auto &path : paths) {
    std::ifstream file(path, std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(file), {}};
    jobs.push_back(tests::job_of(text));
  }
  return jobs;
}

std::string planned(const Job &job) {
  const PlanOutcome outcome = plan(job, {.profile = true});
  return report::plan_json(job, std::get<Plan>(outcome));
}

} // namespace

TEST_CASE("plans made in several threads at once have the bytes of those made one after another", "[threads]") {
  const std::vector<Job> jobs = good_jobs();
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
