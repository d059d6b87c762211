// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/made_job.hpp"
#include "tests/where.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

namespace gatherwright::tests {

/// The text of every good job that the tests have: gathered, gauged and drawn edges, rings, conflicts, remedies,
/// pieces.
inline std::vector<std::string> good_job_texts() {
  std::vector<std::filesystem::path> paths;
  for (const std::string &folder :
       {test_data("worked"), test_data("worked/pieces"), in_project("cli/start"), in_project("docs/examples")})
    for (const auto &entry : std::filesystem::directory_iterator(folder)) {
      const std::string name = entry.path().filename().string();
      if (name.find(".json") != std::string::npos && name.find("expected") == std::string::npos &&
          !name.starts_with("bad-"))
        paths.push_back(entry.path());
    }
  std::sort(paths.begin(), paths.end());
  std::vector<std::string> texts;
  for (const auto &path : paths) {
    std::ifstream file(path, std::ios::binary);
    texts.emplace_back(std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>());
  }
  return texts;
}

inline std::vector<Job> good_jobs() {
  std::vector<Job> jobs;
  for (const std::string &text : good_job_texts())
    jobs.push_back(job_of(text));
  return jobs;
}

} // namespace gatherwright::tests
