// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/commands.hpp"

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

std::variant<int, std::string> threads_asked(const Asked &asked) {
  const auto given = asked.value("--threads");
  if (!given) return std::clamp(static_cast<int>(std::thread::hardware_concurrency()), 1, most_threads);
  int threads = 0;
  const auto [end, failed] = std::from_chars(given->data(), given->data() + given->size(), threads);
  if (failed == std::errc() && end == given->data() + given->size() && threads >= 1 && threads <= most_threads)
    return threads;
  return option_fault("--threads", quoted(*given) + " is no number of threads", "write a whole number from 1 to 256");
}

} // namespace

Answer cast_command(const Asked &asked, const Surroundings &surroundings) {
  std::vector<std::string> faults;
  const auto threads = threads_asked(asked);
  if (const auto *fault = std::get_if<std::string>(&threads)) faults.push_back(*fault);
  const std::string folder = asked.value("--into").value_or("");
  if (folder.empty())
    faults.push_back(option_fault("--into", "it is missing", "name the folder for the plans, as in --into chorus"));
  const std::string list = *asked.value("MEASURES");
  if (list == "-")
    faults.push_back(option_fault("MEASURES", "the list is read twice, and standard input can be read only once",
                                  "write it to a file first"));
  const auto size = paper_asked(asked);
  if (const auto *fault = std::get_if<std::string>(&size)) faults.push_back(*fault);
  if (!faults.empty()) return unusable(faults);
  const std::string file = *asked.value("JOB");
  const auto read = planned_file(file);
  if (const auto *answer = std::get_if<Answer>(&read)) return *answer;
  return cast::run_cast({file, std::get<ReadJob>(read)},
                        {.list = list,
                         .folder = folder,
                         .threads = std::get<int>(threads),
                         .resume = asked.has("--resume"),
                         .paper = {asked.has("--strips"), asked.has("--sheet"), std::get<paper::PaperSize>(size)}},
                        surroundings.tell);
}

} // namespace gatherwright::cli
