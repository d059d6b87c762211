// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/job/read_job.hpp"
#include "tests/outcomes.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

/// What reading a job tells of its text.
namespace gatherwright::tests {

/// A fault, by its place and parts of what is said.
struct ToldOfText {
  int line;
  const char *pointer;
  const char *what;
  const char *instead = "";
};

inline std::vector<cli::InputFault> faults_of(std::string_view text) {
  auto read = cli::read_job(text);
  auto *faults = fault_in(read);
  return faults ? std::move(*faults) : std::vector<cli::InputFault>();
}

/// Checks that exactly these are told, in this order.
inline void check_told(const std::string &text, const std::vector<ToldOfText> &expected) {
  const auto faults = faults_of(text);
  std::string all;
  for (const auto &fault : faults)
    all += cli::fault_line("job", fault) + "\n";
  CAPTURE(text, all);
  CHECK(faults.size() == expected.size());
  for (std::size_t i = 0; i < std::min(faults.size(), expected.size()); ++i) {
    CAPTURE(expected[i].pointer, expected[i].what, expected[i].instead);
    CHECK(faults[i].line == expected[i].line);
    CHECK(faults[i].pointer == expected[i].pointer);
    CHECK(faults[i].fault.what.find(expected[i].what) != std::string::npos);
    CHECK(faults[i].fault.instead.find(expected[i].instead) != std::string::npos);
  }
}

} // namespace gatherwright::tests
