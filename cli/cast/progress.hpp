// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <functional>
#include <string>
#include <string_view>

namespace gatherwright::cli::cast {

/// Takes a text for a terminal as it comes, before the command has its answer.
using Tell = std::function<void(std::string_view)>;

/// How far a long run has come, on one line of a terminal that is written anew a few times a second: how many wearers
/// are done, how many a second, and how long the rest will take. Says nothing where there is no one to tell.
class Progress {
public:
  Progress(Tell tell, long long all);
  ~Progress();
  Progress(const Progress &) = delete;
  Progress &operator=(const Progress &) = delete;

  void done(long long wearers);

private:
  using Clock = std::chrono::steady_clock;

  Tell tell_;
  long long all_;
  Clock::time_point begun_;
  Clock::time_point told_;
  bool line_open_ = false;
};

/// The line: "1200 of 10000 wearers, 5400 a second, 2 s left".
std::string progress_line(long long done, long long all, double seconds);

} // namespace gatherwright::cli::cast
