// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/machine/whole_file.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <iterator>

#include <unistd.h>

using gatherwright::cli::WholeFile;
using gatherwright::cli::write_new_file;
using gatherwright::cli::write_whole_file;
namespace fs = std::filesystem;

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

TEST_CASE("a file that is replaced keeps its mode") {
  const Folder folder;
  const std::string file = folder.in("plan.json");
  const std::string link = folder.in("link.json");
  fs::create_symlink("plan.json", link);
  for (const unsigned mode : {0600U, 0640U, 0666U, 0755U, 0220U}) {
    CAPTURE(mode);
    const auto rights = static_cast<fs::perms>(mode);
    CHECK_FALSE(write_whole_file(file, "first"));
    fs::permissions(file, rights);
    CHECK_FALSE(write_whole_file(file, "second"));
    CHECK(fs::status(file).permissions() == rights);
    CHECK_FALSE(write_whole_file(link, "third"));
    CHECK(fs::status(file).permissions() == rights);
    WholeFile table(file);
    CHECK_FALSE(table.append("fourth"));
    CHECK_FALSE(table.commit());
    CHECK(fs::status(file).permissions() == rights);
    fs::permissions(file, fs::perms::owner_all);
    CHECK(text_of(file) == "fourth");
  }
}

TEST_CASE("what a program that was killed has left is not in the way of one with its number") {
  const Folder folder;
  CHECK_FALSE(write_whole_file(folder.in("plan.json"), "first"));
  constexpr int left = 2000;
  for (int i = 0; i < left; ++i)
    std::ofstream(folder.in(".gatherwright-" + std::to_string(::getpid()) + "-" + std::to_string(i) + ".part"));
  CHECK_FALSE(write_whole_file(folder.in("plan.json"), "second"));
  CHECK(text_of(folder.in("plan.json")) == "second");
  WholeFile table(folder.in("plan.json"));
  CHECK_FALSE(table.append("third"));
  CHECK_FALSE(table.commit());
  CHECK(text_of(folder.in("plan.json")) == "third");
  CHECK(folder.count() == left + 1);
}

TEST_CASE("a file written piece by piece takes the place of a link, not of what it leads to") {
  const Folder folder;
  CHECK_FALSE(write_whole_file(folder.in("real.csv"), "as it was"));
  fs::create_symlink("real.csv", folder.in("table.csv"));
  WholeFile table(folder.in("table.csv"));
  CHECK_FALSE(table.append("rows"));
  CHECK_FALSE(table.commit());
  CHECK(text_of(folder.in("real.csv")) == "as it was");
  CHECK(text_of(folder.in("table.csv")) == "rows");
  CHECK_FALSE(fs::is_symlink(folder.in("table.csv")));
}

TEST_CASE("a new file is written only where nothing is") {
  const Folder folder;
  CHECK_FALSE(write_new_file(folder.in("plan.json"), "first"));
  CHECK(text_of(folder.in("plan.json")) == "first");
  fs::create_symlink("nowhere.json", folder.in("link.json"));
  for (const char *there : {"plan.json", "link.json"})
    CHECK(write_new_file(folder.in(there), "second") == "File exists");
  CHECK(text_of(folder.in("plan.json")) == "first");
  CHECK(folder.count() == 2);
}

TEST_CASE("a device is written straight and stays a device") {
  CHECK_FALSE(write_whole_file("/dev/null", "text"));
  CHECK(std::filesystem::is_character_file("/dev/null"));
  CHECK(write_whole_file("/dev/full", "text") == "No space left on device");
}
