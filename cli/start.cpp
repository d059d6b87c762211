// SPDX-License-Identifier: GPL-3.0-or-later
#include "commands.hpp"
#include "start_jobs.hpp"

#include "gatherwright/nearest.hpp"
#include "job/fault_list.hpp"

#include <fmt/format.h>

namespace gatherwright::cli {

namespace {

std::string listed() {
  std::string text = "Jobs to start from; write one with: gatherwright start NAME > FILE\n\n";
  for (const StartJob &job : start_jobs())
    text += fmt::format("  {:<12}  {}\n", job.name, job.summary);
  return text;
}

} // namespace

Answer start_command(const Asked &asked) {
  const auto name = asked.value("NAME");
  if (!name) return {Status::within_limits, listed(), {}};
  std::vector<std::string> names;
  for (const StartJob &job : start_jobs()) {
    if (job.name == *name) return {Status::within_limits, std::string(job.text), {}};
    names.emplace_back(job.name);
  }
  const auto near = nearest(*name, names);
  return unusable({option_fault("NAME", "there is no job called " + quoted(*name),
                                near ? std::string(*near) : fmt::format("one of {}", fmt::join(names, ", ")))});
}

} // namespace gatherwright::cli
