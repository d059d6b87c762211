// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <catch2/catch.hpp>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <string>

#include <sys/wait.h>
#include <unistd.h>

/// Sheets given to other programs to read.
namespace sheet_files {

/// An empty folder that is gone when the test is over.
class Folder {
public:
  Folder() {
    static int count = 0;
    path_ = std::filesystem::temp_directory_path() /
            ("gatherwright-sheet-" + std::to_string(getpid()) + "-" + std::to_string(++count));
    std::filesystem::create_directory(path_);
  }
  ~Folder() {
    std::error_code ignored; // a browser may still be tidying up
    std::filesystem::remove_all(path_, ignored);
  }
  Folder(const Folder &) = delete;
  Folder &operator=(const Folder &) = delete;

  std::string file(const std::string &name) const { return (path_ / name).string(); }

  std::string write(const std::string &name, const std::string &bytes) const {
    std::ofstream(path_ / name, std::ios::binary) << bytes;
    return file(name);
  }

private:
  std::filesystem::path path_;
};

/// What a program said on its output; the test fails where it fails.
inline std::string said_by(const std::string &command) {
  FILE *pipe = popen(command.c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::string said;
  char piece[4096];
  for (std::size_t got = 0; (got = fread(piece, 1, sizeof piece, pipe)) > 0;)
    said.append(piece, got);
  const int ended = pclose(pipe);
  INFO(command << "\n" << said.substr(0, 2000));
  REQUIRE(WIFEXITED(ended));
  REQUIRE(WEXITSTATUS(ended) == 0);
  return said;
}

} // namespace sheet_files
