// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/machine/beside.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <string>

#include <unistd.h>

using namespace gatherwright::cli;

namespace {

/// A folder that is gone when the test is over.
class Folder {
public:
  Folder() : path_(std::filesystem::temp_directory_path() / ("beside-" + std::to_string(::getpid()))) {
    std::filesystem::create_directories(path_ / "within");
  }
  ~Folder() { std::filesystem::remove_all(path_); }
  Folder(const Folder &) = delete;
  Folder &operator=(const Folder &) = delete;

  std::string in(const std::string &name) const { return (path_ / name).string(); }
  void write(const std::string &name, const std::string &text) const { std::ofstream(in(name)) << text; }

private:
  std::filesystem::path path_;
};

} // namespace

TEST_CASE("what stands beside a file is read by its name, as far as that") {
  const Folder folder;
  folder.write("cap.svg", "0123456789");
  const Beside beside = files_beside(folder.in("job.json"), 5);
  REQUIRE(beside);
  CHECK(*beside("cap.svg") == "012345"); // one more than was asked for tells that there is more
  CHECK(beside("cup.svg").fault().why == "No such file or directory");
  CHECK(beside("within").fault().why == "it is no file");
}

TEST_CASE("a link beside a file is not followed, but one to the file itself is") {
  const Folder folder;
  folder.write("cap.svg", "cap");
  folder.write("job.json", "{}");
  std::filesystem::create_symlink(folder.in("cap.svg"), folder.in("link.svg"));
  std::filesystem::create_symlink(folder.in("job.json"), folder.in("within/job.json"));
  CHECK(files_beside(folder.in("job.json"), 99)("link.svg").fault().why == "it is a link, which is not followed");
  CHECK(*files_beside(folder.in("within/job.json"), 99)("cap.svg") == "cap");
}

TEST_CASE("nothing stands beside standard input") {
  CHECK_FALSE(files_beside("-", 99));
}
