// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace gatherwright::cli {

/// How the program ends.
enum class Status {
  within_limits = 0,
  not_within_limits = 1, ///< planned, and some verdict is not "within limits"
  unusable = 2,          ///< the job or the command line cannot be used
  machine = 3,           ///< something cannot be read or written, or memory has run out
};

/// What a command has to say, whole, before any of it is written. With `unusable` and `machine`, `out` is empty.
struct Answer {
  Status status = Status::within_limits;
  std::string out;
  std::string err;
};

/// At most this many faults are told, one a line.
inline constexpr std::size_t most_faults_told = 20;

/// `unusable`, with the first faults, each a line without its end.
Answer unusable(const std::vector<std::string> &faults);

/// `machine`, with one line that says what could not be done.
Answer machine_fault(const std::string &what);

} // namespace gatherwright::cli
