// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/cast/folder_test.hpp"
#include "tests/cli/commands/command_test.hpp"
#include "tests/where.hpp"

#include <catch2/catch.hpp>

using namespace gatherwright::cli;
using cast_test::files_in;
using cast_test::Folder;
using cast_test::smock;
using command_test::run;
using gatherwright::tests::holds;

TEST_CASE("each wearer of a cast gets strips and a sheet with the name on them, whatever the number of threads") {
  const Folder folder;
  const std::string list = folder.with("list.csv", "wearer,neck\nAda &lt;,39 cm\nBert,41 cm\nCarl,40 cm\n");
  const auto cast = [&](const std::string &into, const std::string &threads) {
    const Answer answer =
        run({"cast", smock, list, "--into", folder.in(into), "--strips", "--sheet", "--threads", threads});
    CAPTURE(answer.err);
    CHECK(answer.status == Status::within_limits);
    return files_in(folder.in(into));
  };
  const auto files = cast("one", "1");
  REQUIRE(files.size() == 3 * 3 + 3);
  CHECK(files.at("Bert.strips.pdf").starts_with("%PDF-"));
  CHECK(holds(files.at("Ada &lt;.sheet.html"), "Ada &amp;lt;"));
  CHECK_FALSE(holds(files.at("Ada &lt;.sheet.html"), "Ada &lt;"));
  CHECK(files.at("Bert.strips.pdf") != files.at("Carl.strips.pdf"));
  CHECK(cast("two", "3") == files);
  // Strips and sheet are those of the plan, which stays what it is without them.
  run({"cast", smock, list, "--into", folder.in("plain")});
  CHECK(files_in(folder.in("plain")).at("Bert.json") == files.at("Bert.json"));
}

TEST_CASE("a cast on paper that is broken off is gone on with") {
  const Folder folder;
  const std::string list = folder.with("list.csv", "wearer,neck\nAda,39 cm\nBert,41 cm\n");
  const std::vector<std::string> words{"cast", smock, list, "--into", folder.in("out"), "--sheet"};
  REQUIRE(run(words).status == Status::within_limits);
  const auto whole = files_in(folder.in("out"));
  for (const char *name : {"Bert.sheet.html", "cast.csv", "cut.csv"})
    std::filesystem::remove(folder.in(std::string("out/") + name));
  std::vector<std::string> again = words;
  again.emplace_back("--resume");
  CHECK(run(again).status == Status::within_limits);
  CHECK(files_in(folder.in("out")) == whole);
}

TEST_CASE("the paper of a cast is a4 or letter") {
  const Folder folder;
  const std::string list = folder.with("list.csv", "wearer\nAda\n");
  const Answer answer = run({"cast", smock, list, "--into", folder.in("out"), "--strips", "--paper", "a5"});
  CHECK(answer.status == Status::unusable);
  CHECK(answer.err == "--paper: it is a4 or letter; write --paper a4\n");
}

TEST_CASE("a wearer whose name no font can write ends a cast on paper with the machine's status and the name") {
  const Folder folder;
  const std::string name = "Ada \U00013000"; // an Egyptian hieroglyph
  const std::string list = folder.with("list.csv", "wearer,neck\n" + name + ",39 cm\n");
  const Answer answer = run({"cast", smock, list, "--into", folder.in("out"), "--strips", "--threads", "1"});
  CHECK(answer.status == Status::machine);
  CHECK(holds(answer.err, "the paper of Ada"));
  CHECK(holds(answer.err, " cannot be made: no font on this machine has all the characters of \""));
  CHECK_FALSE(std::filesystem::exists(folder.in("out/cast.csv")));
}
