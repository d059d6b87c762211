// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/planned.hpp"

#include "cli/job/document.hpp"
#include "cli/job/read_job.hpp"
#include "cli/machine/beside.hpp"
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

bool profile_shown(const OutputsAsked &asked) {
  return asked.profile && asked.json;
}

} // namespace

Answer refused(const std::string &file, const ReadJob &job, const Refusals &refusals) {
  return faults_in(file, placed(job, refusals));
}

PlanSettings settings_for(const OutputsAsked &asked) {
  return {.profile = profile_shown(asked) || asked.sheet, .outlines = asked.strips || asked.sheet, .advice = true};
}

Answer planned(const Job &job, const Plan &plan, const OutputsAsked &asked, const Outputs &outputs,
               const Voice &voice) {
  const Status status = plan.verdict == Verdict::within_limits ? Status::within_limits : Status::not_within_limits;
  Answer answer = with_files({status, {}, {}}, job, plan, outputs);
  if (answer.status == status)
    answer.out = asked.json ? report::plan_json(job, plan, profile_shown(asked), voice.say)
                            : report::plan_text(job, plan, voice.ink, voice.say, outputs.wanted.pins);
  return answer;
}

Outcome<ReadJob, Answer> read_file(const std::string &file) {
  const auto text = read_input(file, longest_text);
  if (!text) return machine_fault(words::printable(file) + " cannot be read: " + text.fault().why);
  auto read = read_job(*text, files_beside(file, longest_text));
  if (!read) return faults_in(file, std::move(read).fault());
  return *std::move(read);
}

Outcome<ReadJob, Answer> planned_file(const std::string &file) {
  return read_file(file).and_then([&](ReadJob read) -> Outcome<ReadJob, Answer> {
    const PlanOutcome outcome = plan(read.job, {.advice = false, .layouts = false});
    if (!outcome) return refused(file, read, outcome.fault());
    return read;
  });
}

} // namespace gatherwright::cli
