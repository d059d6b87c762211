// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/job/read_job.hpp"

#include "tests/outcomes.hpp"
#include "tests/where.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <iterator>

using namespace gatherwright::cli;

namespace {

std::string contents(const std::filesystem::path &path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

void check_read(const std::string &text) {
  const auto read = read_job(text);
  if (const auto *faults = gatherwright::tests::fault_in(read))
    for (const InputFault &fault : *faults)
      UNSCOPED_INFO(fault_line("job", fault));
  CHECK(static_cast<bool>(read));
}

} // namespace

TEST_CASE("every job shown in the description of the format is read without a fault") {
  const std::string page = contents(in_project("docs/format.md"));
  const std::string opening = "```jsonc\n";
  int jobs = 0;
  for (std::size_t at = page.find(opening); at != std::string::npos; at = page.find(opening, at + 1)) {
    const std::size_t begin = at + opening.size();
    check_read(page.substr(begin, page.find("```", begin) - begin));
    ++jobs;
  }
  CHECK(jobs >= 2);
}

TEST_CASE("the example jobs and the jobs to start from are read without a fault") {
  int jobs = 0;
  for (const char *folder : {"docs/examples", "cli/start"})
    for (const auto &entry : std::filesystem::directory_iterator(in_project(folder))) {
      if (entry.path().extension() == ".csv") continue; // a list of wearers
      CAPTURE(entry.path());
      check_read(contents(entry.path()));
      ++jobs;
    }
  CHECK(jobs >= 2);
}
