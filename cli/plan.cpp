// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/outputs.hpp"
#include "cli/planned.hpp"

namespace gatherwright::cli {

Answer answer(const PlanRequest &asked, const Voice &voice) {
  const auto outputs = outputs_of(asked.outputs, asked.job);
  if (const auto *faults = std::get_if<std::vector<std::string>>(&outputs)) return unusable(*faults);
  const auto read = read_file(asked.job);
  if (const auto *cannot = std::get_if<Answer>(&read)) return *cannot;
  const ReadJob &job = std::get<ReadJob>(read);
  const PlanOutcome outcome = plan(job.job, settings_for(asked.outputs));
  if (const auto *made = std::get_if<Plan>(&outcome))
    return planned(job.job, *made, asked.outputs, std::get<Outputs>(outputs), voice);
  return faults_of_planning(asked.job, job.lines, std::get<std::vector<PlacedFault>>(outcome));
}

} // namespace gatherwright::cli
