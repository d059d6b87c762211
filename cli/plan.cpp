// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/outputs.hpp"
#include "cli/planned.hpp"

namespace gatherwright::cli {

Answer answer(const PlanRequest &asked, const Voice &voice) {
  const auto outputs = outputs_of(asked.outputs, asked.job, asked.layout);
  if (!outputs) return unusable(outputs.fault());
  const auto read = read_file(asked.job);
  if (!read) return read.fault();
  if (const auto nothing = asked.layout ? nothing_to_lay(read->job) : std::nullopt) return unusable({*nothing});
  const PlanOutcome outcome = plan(read->job, settings_for(asked.outputs));
  if (!outcome) return refused(asked.job, *read, outcome.fault());
  return planned(read->job, *outcome, asked.outputs, *outputs, voice);
}

} // namespace gatherwright::cli
