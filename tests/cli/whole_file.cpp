// SPDX-License-Identifier: GPL-3.0-or-later
#include "whole_file.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <iterator>

#include <unistd.h>

using gatherwright::cli::write_whole_file;

namespace {

/// A folder of its own, gone at the end.
struct Folder {
  std::filesystem::path path =
      std::filesystem::temp_directory_path() / ("gatherwright-whole-file-" + std::to_string(::getpid()));
  Folder() { std::filesystem::create_directories(path); }
  ~Folder() { std::filesystem::remove_all(path); }
  Folder(const Folder &) = delete;
  Folder &operator=(const Folder &) = delete;

  std::string in(const std::string &name) const { return (path / name).string(); }
  std::ptrdiff_t count() const {
    return std::distance(std::filesystem::directory_iterator(path), std::filesystem::directory_iterator());
  }
};

std::string text_of(const std::string &file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

} // namespace

TEST_CASE("a file is written whole, and a second time replaces it") {
  const Folder folder;
  CHECK_FALSE(write_whole_file(folder.in("plan.json"), "first, and longer"));
  CHECK(text_of(folder.in("plan.json")) == "first, and longer");
  CHECK_FALSE(write_whole_file(folder.in("plan.json"), "second"));
  CHECK(text_of(folder.in("plan.json")) == "second");
  CHECK(folder.count() == 1);
}

TEST_CASE("a symbolic link stays one, and what it leads to is written") {
  const Folder folder;
  std::filesystem::create_symlink("real.json", folder.in("link.json"));
  CHECK_FALSE(write_whole_file(folder.in("link.json"), "one"));
  CHECK_FALSE(write_whole_file(folder.in("link.json"), "two"));
  CHECK(std::filesystem::is_symlink(folder.in("link.json")));
  CHECK(text_of(folder.in("real.json")) == "two");
  CHECK(folder.count() == 2);
}

TEST_CASE("what cannot be written is told and leaves nothing") {
  const Folder folder;
  CHECK(write_whole_file(folder.in("no-such-folder/plan.json"), "text") == "No such file or directory");
  CHECK(write_whole_file(folder.path.string(), "text") == "Is a directory");
  CHECK(write_whole_file("", "text") == "No such file or directory");
  CHECK_FALSE(write_whole_file(folder.in("kept.json"), "kept"));
  std::filesystem::permissions(folder.in("kept.json"), std::filesystem::perms::owner_read);
  CHECK(write_whole_file(folder.in("kept.json"), "other") == "Permission denied");
  CHECK(text_of(folder.in("kept.json")) == "kept");
  CHECK(folder.count() == 1);
}

TEST_CASE("a device is written straight and stays a device") {
  CHECK_FALSE(write_whole_file("/dev/null", "text"));
  CHECK(std::filesystem::is_character_file("/dev/null"));
  CHECK(write_whole_file("/dev/full", "text") == "No space left on device");
}
