// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/plan_answer.hpp"

#include "cli/job/read_job.hpp"
#include "cli/page/faults.hpp"
#include "cli/report/plan_json.hpp"
#include "gatherwright/gatherwright.hpp"

#include <nlohmann/json.hpp>

namespace gatherwright::page {

std::string plan_answer(std::string_view text, std::optional<Width>, const Have &) {
  const auto read = cli::read_job(text);
  if (!read) return faults_json(read.fault());
  const PlanOutcome outcome = plan(read->job, {.profile = true, .advice = true});
  if (!outcome) return faults_json(placed_faults(*read, outcome.fault()));
  const auto job = nlohmann::ordered_json::parse(text, nullptr, false, true);
  return "{\"faults\": [], \"job\": " + job.dump() +
         ", \"remarks\": {}, \"plan\": " + report::plan_json(read->job, *outcome) + ", \"sheet\": {}}";
}

} // namespace gatherwright::page
