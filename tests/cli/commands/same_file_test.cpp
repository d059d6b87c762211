// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/commands/command_test.hpp"
#include "tests/cli/commands/shell.hpp"
#include "tests/cli/press/printed.hpp"
#include "tests/where.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

// Outputs that would take each other's place, or the job's.

using command_test::run;
using command_test::shell;
using gatherwright::cli::Answer;
using gatherwright::cli::Status;
using printed::Folder;

namespace fs = std::filesystem;

namespace {

constexpr std::string_view job_text = R"({ "joins": [ { "name": "frill", "long": "52 cm", "band": "22 cm" } ] })";

void write(const std::string &file, std::string_view text) {
  std::ofstream(file, std::ios::binary) << text;
}

/// A folder `in` with a job, and `beside` it others by which its files can be reached.
struct Room : Folder {
  std::string job = file("in/job.json");
  Room() {
    fs::create_directories(file("in"));
    fs::create_directories(file("beside"));
    fs::create_directory_symlink("in", file("led"));
    write(job, job_text);
  }
};

} // namespace

TEST_CASE("two outputs that are one file are refused before anything is written") {
  // Each two ways of writing one file, after what makes them so.
  struct Case {
    const char *strips;
    const char *sheet;
    void (*make)(const Room &) = [](const Room &) {};
  };
  const Case all[] = {
      {"in/a.pdf", "in/a.pdf"},
      {"in/a.pdf", "in/./a.pdf"},
      {"in//a.pdf", "in/a.pdf"},
      {"in/a.pdf", "beside/../in/a.pdf"},
      {"in/a.pdf", "led/a.pdf"},
      {"in/a.pdf", "in/a.pdf", [](const Room &room) { write(room.file("in/a.pdf"), "as it was"); }},
      {"in/a.pdf", "led/a.pdf", [](const Room &room) { write(room.file("in/a.pdf"), "as it was"); }},
      // a link to what is there, a link to what is not there yet, a link to that link
      {"in/a.pdf", "beside/b.pdf",
       [](const Room &room) {
         write(room.file("in/a.pdf"), "as it was");
         fs::create_symlink("../in/a.pdf", room.file("beside/b.pdf"));
       }},
      {"beside/b.pdf", "in/a.pdf",
       [](const Room &room) { fs::create_symlink("../in/a.pdf", room.file("beside/b.pdf")); }},
      {"beside/b.pdf", "in/c.pdf",
       [](const Room &room) {
         fs::create_symlink("../led/a.pdf", room.file("beside/b.pdf"));
         fs::create_symlink(room.file("beside/b.pdf"), room.file("in/c.pdf"));
       }},
      {"in/a.pdf", "beside/b.pdf",
       [](const Room &room) {
         write(room.file("in/a.pdf"), "as it was");
         fs::create_hard_link(room.file("in/a.pdf"), room.file("beside/b.pdf"));
       }},
      {"missing/a.pdf", "missing/a.pdf"},
  };
  for (const Case &each : all) {
    const Room room;
    each.make(room);
    const auto before = printed::contents(room.file("in/a.pdf"));
    CAPTURE(each.strips, each.sheet, before);
    for (const std::vector<std::string> &command :
         {std::vector<std::string>{"plan", room.job}, {"join", "52 cm", "22 cm"}}) {
      std::vector<std::string> words = command;
      words.insert(words.end(), {"--strips", room.file(each.strips), "--sheet", room.file(each.sheet)});
      const Answer answer = run(words);
      CHECK(answer.status == Status::unusable);
      CHECK(answer.out.empty());
      CHECK(answer.err == "--sheet: another output goes to the same file; write another name\n");
      CHECK(printed::contents(room.file("in/a.pdf")) == before);
      CHECK(fs::exists(room.file("in/a.pdf")) == !before.empty());
    }
  }
}

TEST_CASE("two outputs whose names are alike but that are two files are both written") {
  const Room room;
  write(room.file("in/b.pdf"), "as it was");
  fs::create_symlink("b.pdf", room.file("in/a.pdf"));
  const Answer answer =
      run({"plan", room.job, "--strips", room.file("in/a.pdf"), "--sheet", room.file("beside/a.pdf")});
  CHECK(answer.status == Status::within_limits);
  CHECK(printed::contents(room.file("in/b.pdf")).starts_with("%PDF-"));
  CHECK(printed::contents(room.file("beside/a.pdf")).starts_with("%PDF-"));
}

TEST_CASE("an output that is the job itself is refused, and the job stays") {
  const Room room;
  const std::string as_svg = room.file("in/job.svg");
  fs::create_hard_link(room.job, as_svg);
  fs::create_symlink("../led/job.json", room.file("beside/job.html"));
  const std::string said = "this is the job itself; write another name\n";
  for (const std::string &job : {room.job, as_svg, room.file("led/job.json"), room.file("in/./job.json")})
    for (const std::string &strips : {as_svg, room.file("in/./job.svg"), room.file("led/job.svg")}) {
      CAPTURE(job, strips);
      const Answer answer = run({"plan", job, "--strips", strips, "--sheet", room.file("beside/job.html")});
      CHECK(answer.status == Status::unusable);
      CHECK(answer.out.empty());
      CHECK(answer.err == "--strips: " + said + "--sheet: " + said);
      CHECK(printed::contents(room.job) == job_text);
      CHECK(fs::is_symlink(room.file("beside/job.html")));
    }
  // Also where it comes by way of standard input.
  const auto ran =
      shell("cd '" + room.file("in") + "' && " + command_test::program() + " plan - --strips job.svg 2>&1 <job.json");
  CHECK(ran.status == 2);
  CHECK(ran.said == "--strips: " + said);
  CHECK(printed::contents(room.job) == job_text);
}

TEST_CASE("an output that is the file to which the answer goes is refused") {
  const Room room;
  const auto ran = shell("cd '" + room.file("in") + "' && " + command_test::program() +
                         " plan job.json --sheet ./a.html 2>&1 >a.html");
  CHECK(ran.status == 2);
  CHECK(ran.said == "--sheet: the answer goes to the same file; write another name\n");
  CHECK(printed::contents(room.file("in/a.html")).empty());
}
