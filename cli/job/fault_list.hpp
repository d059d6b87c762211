// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/outcome.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace gatherwright::cli {

/// A fault of the job file: where it stands and what it is.
struct InputFault {
  int line = 0;        ///< from 1
  std::string pointer; ///< RFC 6901; empty for a fault of the JSON itself
  Fault fault;

  friend bool operator==(const InputFault &, const InputFault &) = default;
};

/// "FILE:LINE: /pointer: what is wrong; what would be right", one line without its end. Control characters are escaped.
std::string fault_line(std::string_view file, const InputFault &fault);

/// A message of which neither half is longer than anyone reads.
Fault with_short_halves(Fault fault);

/// Collects faults, up to `most`; those after are dropped.
class FaultList {
public:
  static constexpr std::size_t most = 1000;

  void add(InputFault fault);
  bool empty() const { return faults_.empty(); }
  bool full() const { return faults_.size() >= most; }

  /// The faults by line, those of one line in the order they were found.
  std::vector<InputFault> by_line() &&;

private:
  std::vector<InputFault> faults_;
};

} // namespace gatherwright::cli
