// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/outputs.hpp"
#include "tests/cli/commands/command_test.hpp"
#include "tests/cli/press/printed.hpp"
#include "tests/made_job.hpp"
#include "tests/where.hpp"

#include <catch2/catch.hpp>

#include <filesystem>

using command_test::lines_of;
using command_test::run;
using gatherwright::cli::Answer;
using gatherwright::cli::Status;
using gatherwright::tests::holds;
using printed::Folder;

namespace {

std::vector<std::string> join_into(std::vector<std::string> options) {
  std::vector<std::string> words{"join", "52 cm", "22 cm", "--weight", "165 g/m2"};
  words.insert(words.end(), options.begin(), options.end());
  return words;
}

} // namespace

TEST_CASE("the answer is the same with strips as without, and the file is there") {
  Folder folder;
  const Answer without = run(join_into({}));
  for (const std::string name : {"a.pdf", "a.svg", "a.PDF"}) {
    const Answer with = run(join_into({"--strips", folder.file(name)}));
    CHECK(with.out == without.out);
    CHECK(with.err.empty());
    CHECK(with.status == Status::within_limits);
    CHECK(!printed::contents(folder.file(name)).empty());
  }
  CHECK(printed::contents(folder.file("a.PDF")).starts_with("%PDF-"));
  CHECK(printed::contents(folder.file("a.svg")).starts_with("<?xml"));
}

TEST_CASE("another ending and another paper are faults, told with all others, and nothing is written") {
  Folder folder;
  const Answer answer = run(join_into({"--strips", folder.file("a.png"), "--paper", "a3", "--rows", "many"}));
  CHECK(answer.status == Status::unusable);
  CHECK(answer.out.empty());
  CHECK(holds(answer.err, "--strips: its file ends in .pdf or .svg; write --strips strips.pdf\n"));
  CHECK(holds(answer.err, "--paper: it is a4 or letter; write --paper a4\n"));
  CHECK(holds(answer.err, "--rows"));
  CHECK(folder.names().empty());
  CHECK(run({"plan", in_project("docs/examples/porters-smock.json"), "--strips", ".pdf"}).status == Status::unusable);
}

TEST_CASE("a file that cannot be written is one line and status 3, with nothing left behind") {
  Folder folder;
  const auto refused = [&](const std::string &file, std::string_view why) {
    const Answer answer = run(join_into({"--strips", file}));
    CHECK(answer.status == Status::machine);
    CHECK(answer.out.empty());
    CHECK(lines_of(answer.err).size() == 1);
    CHECK(holds(answer.err, file + " cannot be written: "));
    CHECK(holds(answer.err, why));
  };
  refused(folder.file("missing/a.svg"), "No such file or directory");
  std::filesystem::create_directory(folder.file("folder.svg"));
  refused(folder.file("folder.svg"), "Is a directory");
  CHECK(folder.names() == std::vector<std::string>{"folder.svg"});
  // A full disk is what a link to /dev/full stands for.
  std::filesystem::create_symlink("/dev/full", folder.file("full.svg"));
  refused(folder.file("full.svg"), "No space left on device");
  std::ofstream(folder.file("read-only.svg")) << "as it was";
  std::filesystem::permissions(folder.file("read-only.svg"), std::filesystem::perms::owner_read);
  refused(folder.file("read-only.svg"), "Permission denied");
  CHECK(printed::contents(folder.file("read-only.svg")) == "as it was");
  CHECK(folder.names() == std::vector<std::string>{"folder.svg", "full.svg", "read-only.svg"});
}

TEST_CASE("where the rules conflict no strips are written, and that is said beside the plan") {
  Folder folder;
  command_test::Written job(R"({ "lengths": { "a": { "from": "10 cm" } }, "rules": [ "a <= 5 cm" ],
    "joins": [ { "name": "j", "long": "a", "band": "2 cm" } ] })");
  const Answer answer = run({"plan", job.path(), "--strips", folder.file("a.pdf")});
  CHECK(answer.status == Status::not_within_limits);
  CHECK(holds(answer.out, "rules conflict"));
  CHECK(answer.err ==
        "gatherwright: " + folder.file("a.pdf") + " is not written: the rules conflict, so there is nothing to mark\n");
  CHECK(folder.names().empty());
}

TEST_CASE("an edge that comes out as nothing, the same from both ends, has its place on the strips") {
  Folder folder;
  const std::string even = R"("long": "a", "band": "20 cm", "segments": [{}, {}, {}, {}])";
  command_test::Written job(R"({ "lengths": { "a": { "from": "0 cm", "to": "1 mm" } }, "rules": [ "a <= 0 cm" ],
    "joins": [ { "name": "j", )" +
                            even + " } ] }");
  const Answer answer = run({"plan", job.path(), "--strips", folder.file("a.svg")});
  CHECK(answer.status == Status::not_within_limits);
  CHECK(holds(printed::contents(folder.file("a.svg")), "20 cm"));
}

TEST_CASE("of two files the first stays where the second cannot be written, and both are named") {
  using namespace gatherwright;
  Folder folder;
  const paper::Form form{".txt", [](const Job &, const Plan &, const paper::Wanted &) -> paper::PdfOutcome {
                           return std::string("made");
                         }};
  const Job job = tests::job_of(R"({ "joins": [ { "name": "j", "long": "20 cm", "band": "10 cm" } ] })");
  const Plan plan = tests::plan_of(job);
  const cli::Outputs outputs{{{&form, folder.file("one.txt")}, {&form, folder.file("missing/two.txt")}}, {}};
  const Answer answer = cli::with_files({Status::within_limits, "the plan", ""}, job, plan, outputs);
  CHECK(answer.status == Status::machine);
  CHECK(answer.out.empty());
  CHECK(answer.err == "gatherwright: " + folder.file("missing/two.txt") +
                          " cannot be written: No such file or directory; " + folder.file("one.txt") + " is written\n");
  CHECK(printed::contents(folder.file("one.txt")) == "made");
}

TEST_CASE("nothing is written where a later file cannot be made") {
  using namespace gatherwright;
  Folder folder;
  const auto made = [](const Job &, const Plan &, const paper::Wanted &) -> paper::PdfOutcome {
    return std::string("made");
  };
  const auto fails = [](const Job &, const Plan &, const paper::Wanted &) -> paper::PdfOutcome {
    return Fault{"no ink", "fill it"};
  };
  const paper::Form good{".txt", made};
  const paper::Form bad{".txt", fails};
  const Job job = tests::job_of(R"({ "joins": [ { "name": "j", "long": "20 cm", "band": "10 cm" } ] })");
  const cli::Outputs outputs{{{&good, folder.file("one.txt")}, {&bad, folder.file("two.txt")}}, {}};
  const Answer answer = cli::with_files({Status::within_limits, "the plan", ""}, job, tests::plan_of(job), outputs);
  CHECK(answer.status == Status::machine);
  CHECK(answer.err == "gatherwright: " + folder.file("two.txt") + " cannot be made: no ink; fill it\n");
  CHECK(folder.names().empty());
}
