// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/cast/folder_test.hpp"
#include "tests/cli/commands/command_test.hpp"
#include "tests/cli/commands/shell.hpp"

#include <catch2/catch.hpp>

#include <functional>

#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>

// What lies in the folder of a cast already. The program itself is called, with a bound on its time: what waits for a
// pipe waits for ever.

using cast_test::files_in;
using cast_test::Folder;
using cast_test::text_of;
using command_test::lines_of;
using command_test::Ran;
using command_test::shell;
using gatherwright::tests::holds;

namespace fs = std::filesystem;

namespace {

constexpr std::string_view cuff_job = R"({ "measures": { "wrist": "17 cm" }, "lengths": { "cuff": "wrist + 5 cm" },
  "joins": [ { "name": "sleeve into cuff", "long": "52 cm", "band": "cuff" } ] })";

/// A folder with a job, a list of Anna and Bert, and what belongs to neither.
struct Room : Folder {
  std::string job = with("job.json", cuff_job);
  std::string list = with("list.csv", "wearer,wrist\nAnna,17\nBert,18\n");
  std::string outside = with("outside", "as it was");

  Ran cast(const std::string &more, const std::string &of) const {
    return shell("timeout 20 " + command_test::program() + " cast '" + job + "' '" + of + "' --into '" + in("out") +
                 "' " + more + " 2>&1");
  }
  Ran cast(const std::string &more = "") const { return cast(more, list); }
};

/// The names of a folder's entries, links that lead nowhere too.
std::vector<std::string> entries_of(const std::string &folder) {
  std::vector<std::string> names;
  for (const auto &entry : fs::directory_iterator(folder))
    names.push_back(entry.path().filename().string());
  std::sort(names.begin(), names.end());
  return names;
}

void make_pipe(const std::string &path) {
  REQUIRE(::mkfifo(path.c_str(), 0666) == 0);
}

void make_socket(const std::string &path) {
  sockaddr_un address{.sun_family = AF_UNIX, .sun_path = {}};
  REQUIRE(path.size() < sizeof address.sun_path);
  path.copy(address.sun_path, path.size());
  const int made = ::socket(AF_UNIX, SOCK_STREAM, 0);
  REQUIRE(::bind(made, reinterpret_cast<const sockaddr *>(&address), sizeof address) == 0);
  ::close(made);
}

} // namespace

TEST_CASE("in a cast's folder nothing is written through a link, and nothing else than a file is waited for") {
  struct Planted {
    std::string_view what;
    std::function<void(const Room &, const std::string &path)> make;
  };
  const std::vector<Planted> all{
      {"is a link, and nothing is written through one",
       [](const Room &room, const std::string &path) { fs::create_symlink(room.outside, path); }},
      {"is a link, and nothing is written through one",
       [](const Room &room, const std::string &path) { fs::create_symlink(room.in("nowhere"), path); }},
      {"is no file", [](const Room &, const std::string &path) { make_pipe(path); }},
      {"is no file", [](const Room &, const std::string &path) { make_socket(path); }},
      {"is a folder and no file", [](const Room &, const std::string &path) { fs::create_directory(path); }},
  };
  for (const char *name : {"Anna.json", "Bert.strips.pdf", "Bert.sheet.html", "cast.csv", "cut.csv"})
    for (const Planted &planted : all) {
      const Room room;
      fs::create_directory(room.in("out"));
      planted.make(room, room.in("out/") + name);
      for (const char *more : {"--resume", "--resume --strips --sheet", ""}) {
        const Ran ran = room.cast(more);
        CAPTURE(name, planted.what, more, ran.said);
        CHECK(ran.status == 2);
        CHECK(lines_of(ran.said).size() == 1);
        if (*more != '\0') {
          CHECK(ran.said.starts_with("--into: "));
          CHECK(holds(ran.said, std::string("out/") + name + "\" " + std::string(planted.what) + "; take it away\n"));
        }
        CHECK(entries_of(room.in("out")) == std::vector<std::string>{name});
        CHECK(text_of(room.outside) == "as it was");
        CHECK_FALSE(fs::exists(room.in("nowhere")));
      }
    }
}

TEST_CASE("what is not of the cast may lie in its folder as it likes") {
  const Room room;
  fs::create_directory(room.in("out"));
  fs::create_symlink(room.outside, room.in("out/notes"));
  make_pipe(room.in("out/pipe"));
  fs::create_directory(room.in("out/folder"));
  CHECK(room.cast("--resume").status == 0);
  CHECK(entries_of(room.in("out")) ==
        std::vector<std::string>{"Anna.json", "Bert.json", "cast.csv", "cut.csv", "folder", "notes", "pipe"});
  CHECK(text_of(room.outside) == "as it was");
}

TEST_CASE("a table never takes the place of the list, of the job or of where the answer goes") {
  for (const std::string table : {"cast.csv", "cut.csv"}) {
    CAPTURE(table);
    const auto refused = [&](const Room &room, const Ran &ran, std::string_view why) {
      CAPTURE(ran.said);
      CHECK(ran.status == 2);
      CHECK(ran.said.ends_with("out/" + table + "\" would be written, but " + std::string(why) +
                               "; name another folder\n"));
      CHECK(entries_of(room.in("out")) == std::vector<std::string>{table});
    };
    const std::string names = "wearer,wrist\nAnna,17\n";
    {
      const Room room;
      fs::create_directory(room.in("out"));
      const std::string there = room.with("out/" + table, names);
      refused(room, room.cast("--resume", there), "this is the list itself");
      fs::create_symlink(there, room.in("link.csv"));
      refused(room, room.cast("--resume", room.in("link.csv")), "this is the list itself");
      fs::create_hard_link(there, room.in("other.csv"));
      refused(room, room.cast("--resume", room.in("other.csv")), "this is the list itself");
      CHECK(text_of(there) == names);
    }
    {
      const Room room;
      fs::create_directory(room.in("out"));
      fs::create_hard_link(room.job, room.in("out/" + table));
      refused(room, room.cast("--resume"), "this is the job itself");
      CHECK(text_of(room.job) == cuff_job);
    }
    const Room room;
    fs::create_directory(room.in("out"));
    const Ran ran = shell(command_test::program() + " cast '" + room.job + "' '" + room.list + "' --into '" +
                          room.in("out") + "' --resume 2>&1 >'" + room.in("out/" + table) + "'");
    refused(room, ran, "the answer goes to the same file");
  }
}

TEST_CASE("what a killed program has left of its files keeps no cast from beginning, and goes") {
  const Room room;
  fs::create_directory(room.in("out"));
  room.with("out/.gatherwright-7-0.part", "half a pl");
  room.with("out/.gatherwright-0123456789abcdef.part", "");
  CHECK(room.cast().status == 0);
  CHECK(entries_of(room.in("out")) == std::vector<std::string>{"Anna.json", "Bert.json", "cast.csv", "cut.csv"});
}

TEST_CASE("a table that is written again keeps its mode") {
  const Room room;
  REQUIRE(room.cast().status == 0);
  const auto rights = fs::perms::owner_read | fs::perms::owner_write | fs::perms::group_read;
  for (const char *table : {"out/cast.csv", "out/cut.csv"})
    fs::permissions(room.in(table), rights);
  REQUIRE(room.cast("--resume").status == 0);
  for (const char *table : {"out/cast.csv", "out/cut.csv"})
    CHECK(fs::status(room.in(table)).permissions() == rights);
}

TEST_CASE("where the system gives no more threads a cast is done with those there are, to the same bytes") {
  const Room room;
  std::string text = "wearer,wrist\n";
  for (int i = 0; i < 300; ++i)
    text += "porter " + std::to_string(i) + "," + std::to_string(17 + i % 3) + "\n";
  const std::string list = room.with("many.csv", text);
  REQUIRE(room.cast("--threads 1", list).status < 2);
  const auto whole = files_in(room.in("out"));
  REQUIRE(whole.size() == 302);
  // A stack larger than all memory is had for no thread; one of 64 MB in an allowance of 200 MB for two of them.
  std::vector<std::string> bounds;
  if (const char *no_stack = "ulimit -S -s 70000000000"; shell(std::string(no_stack) + " 2>&1").status == 0)
    bounds.emplace_back(no_stack);
#ifndef __SANITIZE_ADDRESS__ // which takes terabytes of addresses for itself
  bounds.emplace_back("ulimit -S -s 65536; ulimit -v 200000");
#endif
  for (const std::string &bound : bounds) {
    fs::remove_all(room.in("out"));
    const Ran ran = shell("(" + bound + "; exec " + command_test::program() + " cast '" + room.job + "' '" + list +
                          "' --into '" + room.in("out") + "' --threads 256) 2>&1");
    CAPTURE(bound, ran.said);
    CHECK(ran.status < 2);
    CHECK(files_in(room.in("out")) == whole);
  }
}
