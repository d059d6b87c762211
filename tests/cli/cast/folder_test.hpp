// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/where.hpp"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <string>
#include <string_view>

#include <unistd.h>

/// Folders and files of the tests of casts.
namespace cast_test {

inline const std::string smock = in_project("docs/examples/porters-smock.json");

/// A folder of its own, gone at the end.
class Folder {
public:
  Folder() {
    static int count = 0;
    path_ = std::filesystem::temp_directory_path() /
            ("gatherwright-cast-" + std::to_string(getpid()) + "-" + std::to_string(++count));
    std::filesystem::create_directories(path_);
  }
  ~Folder() {
    std::error_code failed;
    std::filesystem::remove_all(path_, failed);
  }
  Folder(const Folder &) = delete;
  Folder &operator=(const Folder &) = delete;

  std::string path() const { return path_.string(); }
  std::string in(const std::string &name) const { return (path_ / name).string(); }
  /// A file in it with this text.
  std::string with(const std::string &name, std::string_view text) const {
    std::ofstream(path_ / name, std::ios::binary) << text;
    return in(name);
  }

private:
  std::filesystem::path path_;
};

inline std::string text_of(const std::filesystem::path &file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

/// The bytes of every file of a folder, by name; nothing where there is no folder.
inline std::map<std::string, std::string> files_in(const std::string &folder) {
  std::map<std::string, std::string> files;
  if (!std::filesystem::exists(folder)) return files;
  for (const auto &entry : std::filesystem::directory_iterator(folder))
    files[entry.path().filename().string()] = text_of(entry.path());
  return files;
}

} // namespace cast_test
