// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/planned.hpp"

#include "cli/cast/cast_run.hpp"
#include "cli/job/fault_list.hpp"
#include "cli/outputs.hpp"
#include "cli/words/quoted.hpp"

#include <algorithm>
#include <charconv>
#include <thread>

namespace gatherwright::cli {

namespace {

constexpr int most_threads = 256;

Outcome<int, std::string> threads_of(const std::optional<std::string> &given) {
  if (!given) return std::clamp(static_cast<int>(std::thread::hardware_concurrency()), 1, most_threads);
  int threads = 0;
  const auto [end, failed] = std::from_chars(given->data(), given->data() + given->size(), threads);
  if (failed == std::errc() && end == given->data() + given->size() && threads >= 1 && threads <= most_threads)
    return threads;
  return option_fault(name_of<&CastRequest::threads>, quoted(*given) + " is no number of threads",
                      "write a whole number from 1 to 256");
}

} // namespace

Answer answer(const CastRequest &asked, const Voice &voice) {
  std::vector<std::string> faults;
  const auto threads = threads_of(asked.threads);
  if (!threads) faults.push_back(threads.fault());
  const std::string folder = asked.into.value_or("");
  if (folder.empty())
    faults.push_back(option_fault(name_of<&CastRequest::into>, "it is missing",
                                  "name the folder for the plans, as in --into chorus"));
  if (asked.measures == "-")
    faults.push_back(option_fault(name_of<&CastRequest::measures>,
                                  "the list is read twice, and standard input can be read only once",
                                  "write it to a file first"));
  OutputsAsked on_paper;
  on_paper.paper = asked.paper;
  const auto outputs = outputs_of(on_paper, asked.job, asked.layout);
  if (!outputs) faults.insert(faults.end(), outputs.fault().begin(), outputs.fault().end());
  if (!faults.empty()) return unusable(faults);
  const auto read = planned_file(asked.job);
  if (!read) return read.fault();
  if (const auto nothing = asked.layout ? nothing_to_lay(read->job) : std::nullopt) return unusable({*nothing});
  std::optional<cast::LayoutFile> layout;
  if (asked.layout) layout = {*asked.layout, outputs->files.front().form->ending == ".svg"};
  return cast::run_cast({asked.job, *read},
                        {.list = asked.measures,
                         .folder = folder,
                         .threads = *threads,
                         .resume = asked.resume,
                         .paper = {asked.strips, asked.sheet, outputs->wanted.size},
                         .layout = layout},
                        voice.tell);
}

} // namespace gatherwright::cli
