// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/commands.hpp"

#include "cli/job/document.hpp"
#include "cli/job/read_job.hpp"
#include "cli/machine/input_file.hpp"
#include "cli/outputs.hpp"
#include "cli/report/plan_json.hpp"
#include "cli/report/plan_text.hpp"
#include "cli/words/names.hpp"

#include <algorithm>
#include <utility>

namespace gatherwright::cli {

namespace {

Answer faults_in(const std::string &file, std::vector<InputFault> faults) {
  std::stable_sort(faults.begin(), faults.end(),
                   [](const InputFault &a, const InputFault &b) { return a.line < b.line; });
  std::vector<std::string> lines;
  for (std::size_t i = 0; i < std::min(faults.size(), most_faults_told); ++i)
    lines.push_back(fault_line(file, faults[i]));
  return unusable(lines);
}

Answer faults_of_planning(const std::string &file, const JobLines &lines, std::span<const PlacedFault> faults) {
  std::vector<InputFault> at_lines;
  for (const PlacedFault &fault : faults)
    at_lines.push_back(placed(lines, fault));
  return faults_in(file, std::move(at_lines));
}

bool profile_shown(const Asked &asked) {
  return asked.has("--profile") && asked.has("--json");
}

} // namespace

PlanSettings settings_asked(const Asked &asked) {
  return {.profile = profile_shown(asked) || asked.has("--sheet"), .outlines = asked.has("--strips"), .advice = true};
}

Answer planned(const Job &job, const Plan &plan, const Asked &asked, const Outputs &outputs, const report::Ink &ink,
               const Surroundings &surroundings) {
  const Status status = plan.verdict == Verdict::within_limits ? Status::within_limits : Status::not_within_limits;
  Answer answer = with_files({status, {}, {}}, job, plan, outputs);
  if (answer.status == status)
    answer.out = asked.has("--json") ? report::plan_json(job, plan, profile_shown(asked), surroundings.say)
                                     : report::plan_text(job, plan, ink, surroundings.say);
  return answer;
}

std::variant<ReadJob, Answer> read_file(const std::string &file) {
  const auto text = read_input(file, longest_text);
  if (const auto *cannot = std::get_if<CannotRead>(&text))
    return machine_fault(words::printable(file) + " cannot be read: " + cannot->why);
  auto read = read_job(std::get<std::string>(text));
  if (auto *faults = std::get_if<std::vector<InputFault>>(&read)) return faults_in(file, std::move(*faults));
  return std::get<ReadJob>(std::move(read));
}

Answer plan_command(const Asked &asked, const report::Ink &ink, const Surroundings &surroundings) {
  const auto outputs = outputs_asked(asked);
  if (const auto *faults = std::get_if<std::vector<std::string>>(&outputs)) return unusable(*faults);
  const std::string file = *asked.value("JOB");
  const auto read = read_file(file);
  if (const auto *answer = std::get_if<Answer>(&read)) return *answer;
  const ReadJob &job = std::get<ReadJob>(read);
  const PlanOutcome outcome = plan(job.job, settings_asked(asked));
  if (const auto *made = std::get_if<Plan>(&outcome))
    return planned(job.job, *made, asked, std::get<Outputs>(outputs), ink, surroundings);
  return faults_of_planning(file, job.lines, std::get<std::vector<PlacedFault>>(outcome));
}

std::variant<ReadJob, Answer> planned_file(const std::string &file) {
  auto read = read_file(file);
  const ReadJob *job = std::get_if<ReadJob>(&read);
  if (job == nullptr) return read;
  const PlanOutcome outcome = plan(job->job, {.advice = false});
  if (const auto *faults = std::get_if<std::vector<PlacedFault>>(&outcome))
    return faults_of_planning(file, job->lines, *faults);
  return read;
}

} // namespace gatherwright::cli
