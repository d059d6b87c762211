// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sheet/sheet.hpp"
#include "tests/cli/commands/command_test.hpp"
#include "tests/cli/sheet/sheet_files.hpp"
#include "tests/cli/sheet/sheet_jobs.hpp"

#include "tests/where.hpp"

#include <catch2/catch.hpp>

#include <fstream>
#include <iterator>

using namespace gatherwright::cli;
using command_test::run;
using gatherwright::tests::holds;

namespace {

std::string contents(const std::string &path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

} // namespace

TEST_CASE("the option --sheet writes the sheet of the job beside the answer, which stays as it was") {
  const sheet_files::Folder folder;
  const std::string job = in_project("docs/examples/porters-smock.json");
  const std::string file = folder.file("smock.HTML");
  const Answer with = run({"plan", job, "--json", "--sheet", file});
  const Answer without = run({"plan", job, "--json"});
  CHECK(with.status == Status::within_limits);
  CHECK(with.out == without.out);
  CHECK(with.err.empty());
  const auto [read, plan] = sheet_jobs::smock();
  CHECK(contents(file) == gatherwright::paper::sheet_html(read, plan));
}

TEST_CASE("the option --sheet writes pages of the size that is asked for") {
  const sheet_files::Folder folder;
  const std::string file = folder.file("sheet.pdf");
  const Answer answer = run({"join", "20 1/2 in", "9 in", "--sheet", file, "--paper", "letter"});
  CHECK(answer.status == Status::within_limits);
  const std::string info = sheet_files::said_by("pdfinfo '" + file + "'");
  CHECK(holds(info, "612 x 792 pts (letter)"));
  CHECK(holds(info, "Tagged:          yes"));
  CHECK(holds(info, "Title:           Worksheet"));
}

TEST_CASE("a sheet is written of a bad plan and of a conflict too") {
  const sheet_files::Folder folder;
  const std::string full = folder.file("full.html");
  CHECK(run({"join", "200 cm", "20 cm", "--sheet", full}).status == Status::not_within_limits);
  CHECK(holds(contents(full), "What is wrong"));
  const std::string conflict = folder.file("conflict.html");
  const std::string job = test_data("worked/36-rules-against-each-other.job.json");
  CHECK(run({"plan", job, "--sheet", conflict}).status == Status::not_within_limits);
  CHECK(holds(contents(conflict), "These cannot all hold"));
}

TEST_CASE("a sheet that cannot be written, or is no sheet, is told and leaves nothing") {
  const sheet_files::Folder folder;
  const Answer missing = run({"join", "52 cm", "22 cm", "--sheet", folder.file("none/sheet.html")});
  CHECK(missing.status == Status::machine);
  CHECK(missing.out.empty());
  CHECK(holds(missing.err, "cannot be written"));
  const Answer ending = run({"join", "52 cm", "22 cm", "--sheet", folder.file("sheet.svg")});
  CHECK(ending.status == Status::unusable);
  CHECK(ending.err == "--sheet: its file ends in .html or .pdf; write --sheet sheet.html\n");
  CHECK_FALSE(std::filesystem::exists(folder.file("sheet.svg")));
}
