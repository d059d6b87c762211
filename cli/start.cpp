// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/commands.hpp"
#include "cli/start_jobs.hpp"

#include "cli/job/fault_list.hpp"
#include "cli/words/quoted.hpp"
#include "gatherwright/nearest.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace gatherwright::cli {

namespace {

std::string listed() {
  std::string text = "Jobs to start from; write one with: gatherwright start NAME > FILE\n\n";
  std::size_t widest = 0;
  for (const StartJob &job : start_jobs())
    widest = std::max(widest, job.name.size());
  for (const StartJob &job : start_jobs())
    text += fmt::format("  {:<{}}  {}\n", job.name, widest, job.summary);
  return text;
}

} // namespace

Answer answer(const StartRequest &asked, const Voice &) {
  if (!asked.name) return {Status::within_limits, listed(), {}};
  std::vector<std::string> names;
  for (const StartJob &job : start_jobs()) {
    if (job.name == *asked.name) return {Status::within_limits, std::string(job.text), {}};
    names.emplace_back(job.name);
  }
  const auto near = nearest(*asked.name, names);
  return unusable(
      {option_fault(name_of<&StartRequest::name>, "there is no job called " + quoted(*asked.name),
                    near ? fmt::format("write {}", *near) : fmt::format("write one of {}", fmt::join(names, ", ")))});
}

} // namespace gatherwright::cli
