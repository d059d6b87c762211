// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/cast/folder_test.hpp"
#include "tests/where.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <functional>
#include <random>
#include <thread>

#include <fcntl.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/wait.h>

// The program itself: killed, out of room, and its memory.

using cast_test::files_in;
using cast_test::Folder;
using cast_test::smock;
using cast_test::text_of;

namespace {

/// The smock without its pieces, its last key: thousands of wearers are soon planned.
std::string unlaid_smock(const Folder &folder) {
  const std::string text = text_of(smock);
  const std::size_t pieces = text.rfind(",\n\n  \"pieces\":");
  REQUIRE(pieces != std::string::npos);
  return folder.with("smock.json", text.substr(0, pieces) + "\n}\n");
}

/// A list of so many made-up porters.
std::string made_up(int wearers) {
  std::string text = "wearer,neck [mm],wrist [mm]\n";
  for (int i = 0; i < wearers; ++i)
    text += "porter " + std::to_string(i) + "," + std::to_string(385 + i * 7 % 40) + "," +
            std::to_string(170 + i * 11 % 25) + "\n";
  return text;
}

pid_t begin(std::vector<std::string> words, const std::string &said, const std::function<void()> &first = {}) {
  words.insert(words.begin(), program_file());
  std::vector<char *> arguments;
  for (std::string &word : words)
    arguments.push_back(word.data());
  arguments.push_back(nullptr);
  const pid_t child = fork();
  if (child != 0) return child;
  const int file = open(said.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0666);
  dup2(file, 1);
  dup2(file, 2);
  if (first) first();
  execv(arguments[0], arguments.data());
  _exit(127);
}

/// Its exit status; -1 where a signal ended it.
int end_of(pid_t child) {
  int status = 0;
  REQUIRE(waitpid(child, &status, 0) == child);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

/// Every plan is whole JSON, and there is nothing else but the tables.
void check_whole(const std::string &folder) {
  for (const auto &[name, bytes] : files_in(folder)) {
    CAPTURE(name);
    if (name == "cast.csv" || name == "cut.csv") continue;
    CHECK(name.ends_with(".json"));
    CHECK(nlohmann::json::accept(bytes));
  }
}

} // namespace

TEST_CASE("a cast that is killed leaves whole files and comes out the same once it is resumed") {
  const Folder folder;
  const std::string job = unlaid_smock(folder);
  const std::string list = folder.with("list.csv", made_up(250));
  REQUIRE(end_of(begin({"cast", job, list, "--into", folder.in("whole")}, folder.in("said"))) < 2);
  const auto whole = files_in(folder.in("whole"));
  REQUIRE(whole.size() == 252);
  std::mt19937_64 random(19381);
  int killed = 0;
  for (int i = 0; i < 5; ++i) {
    const std::string out = folder.in("out" + std::to_string(i));
    const pid_t child = begin({"cast", job, list, "--into", out}, folder.in("said"));
    // Once some share of the files is there, however fast the machine is today.
    const auto enough = static_cast<std::ptrdiff_t>(random() % 200);
    const auto patience = std::chrono::steady_clock::now() + std::chrono::seconds(20);
    const auto count = [&] {
      std::error_code failed;
      std::filesystem::directory_iterator entries(out, failed);
      return failed ? 0 : std::distance(entries, std::filesystem::directory_iterator());
    };
    while (count() < enough && std::chrono::steady_clock::now() < patience)
      std::this_thread::yield();
    kill(child, SIGKILL);
    killed += end_of(child) == -1;
    check_whole(out);
    CHECK(end_of(begin({"cast", job, list, "--into", out, "--resume"}, folder.in("said"))) < 2);
    CHECK(files_in(out) == whole);
  }
  CHECK(killed >= 3); // else the test has shown nothing
}

TEST_CASE("a disk that is full ends the cast with one line and whole files, and it can be resumed") {
  const Folder folder;
  const std::string job = unlaid_smock(folder);
  const std::string list = folder.with("list.csv", made_up(200));
  const std::string small = folder.in("small");
  std::filesystem::create_directory(small);
  // Where mounting is not allowed a limit on the size of files stands in: a plan passes it as it would a full disk.
  const bool mounted = mount("none", small.c_str(), "tmpfs", 0, "size=1m") == 0;
  const auto limited = [] {
    const rlimit limit{16384, 16384};
    setrlimit(RLIMIT_FSIZE, &limit);
  };
  const std::string out = small + "/out";
  const auto first = mounted ? std::function<void()>() : std::function<void()>(limited);
  CAPTURE(mounted);
  CHECK(end_of(begin({"cast", job, list, "--into", out}, folder.in("said"), first)) == 3);
  const std::string said = text_of(folder.in("said"));
  CAPTURE(said);
  CHECK(said.starts_with("gatherwright: "));
  CHECK(std::count(said.begin(), said.end(), '\n') == 1);
  CHECK(said.find(mounted ? "No space left on device" : "File too large") != std::string::npos);
  check_whole(out);
  CHECK(files_in(out).size() < 200);
  if (mounted) {
    CHECK(!files_in(out).empty());
    CHECK(mount("none", small.c_str(), "tmpfs", MS_REMOUNT, "size=64m") == 0);
  }
  CHECK(end_of(begin({"cast", job, list, "--into", out, "--resume"}, folder.in("said"))) < 2);
  CHECK(files_in(out).size() == 202);
  if (mounted) CHECK(umount(small.c_str()) == 0);
}

TEST_CASE("tables that no room is left for end the cast with one line, whole plans and no tables") {
  const Folder folder;
  const std::string job = unlaid_smock(folder);
  const std::string list = folder.with("list.csv", made_up(400));
  const auto limited = [] {
    const rlimit limit{49152, 49152}; // for any plan, not for the rows of everyone
    setrlimit(RLIMIT_FSIZE, &limit);
  };
  const std::string out = folder.in("out");
  CHECK(end_of(begin({"cast", job, list, "--into", out}, folder.in("said"), limited)) == 3);
  CHECK(text_of(folder.in("said")) == "gatherwright: " + out + " cannot be written to: File too large\n");
  check_whole(out);
  const auto files = files_in(out);
  CHECK(files.size() > 100);
  CHECK(files.count("cast.csv") + files.count("cut.csv") == 0);
}

#ifndef __SANITIZE_ADDRESS__ // which takes terabytes of addresses for itself
TEST_CASE("memory does not grow with the number of wearers") {
  const Folder folder;
  const std::string job = unlaid_smock(folder);
  const std::string list = folder.with("list.csv", made_up(3000));
  // Together the plans are 68 MB and would not go into what is left here beside the program.
  const auto limited = [] {
    const rlimit limit{48 << 20, 48 << 20};
    setrlimit(RLIMIT_AS, &limit);
  };
  const pid_t child =
      begin({"cast", job, list, "--into", folder.in("out"), "--threads", "1"}, folder.in("said"), limited);
  CHECK(end_of(child) < 2);
  CHECK(files_in(folder.in("out")).size() == 3002);
}
#endif
