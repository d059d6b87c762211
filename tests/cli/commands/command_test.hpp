// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/commands.hpp"
#include "tests/holds.hpp"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <string_view>
#include <vector>

#include <unistd.h>

/// Commands called within the test, with nothing written.
namespace command_test {

inline gatherwright::cli::Answer run(std::vector<std::string> arguments,
                                     const gatherwright::cli::Surroundings &surroundings = {}) {
  return gatherwright::cli::run(arguments, surroundings);
}

inline std::vector<std::string> lines_of(const std::string &text) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find('\n', at);
    lines.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return lines;
}

inline std::string contents(const std::string &path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// A file with this text that is gone when the test is over.
class Written {
public:
  explicit Written(std::string_view text) {
    static int count = 0;
    path_ = std::filesystem::temp_directory_path() /
            ("gatherwright-test-" + std::to_string(getpid()) + "-" + std::to_string(++count) + ".json");
    std::ofstream(path_, std::ios::binary) << text;
  }
  ~Written() { std::filesystem::remove(path_); }
  Written(const Written &) = delete;
  Written &operator=(const Written &) = delete;

  std::string path() const { return path_.string(); }

private:
  std::filesystem::path path_;
};

} // namespace command_test
