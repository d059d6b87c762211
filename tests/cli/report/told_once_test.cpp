// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/join_words.hpp"
#include "cli/report/plan_text.hpp"
#include "cli/report/plan_words.hpp"
#include "tests/made_job.hpp"

#include <algorithm>

using namespace gatherwright;

namespace {

std::string text_of(const std::string &job) {
  return report::plan_text(tests::job_of(job), tests::plan_of(job), {});
}

std::size_t times(const std::string &text, std::string_view part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1))
    ++count;
  return count;
}

/// Two frills of one cloth, the second with what is given of it.
std::string two_frills(const std::string &second) {
  return R"({"fabric": {"weight": "150 g/m2"}, "joins": [
    {"name": "one", "long": "80 cm", "band": "40 cm"}, {"name": "two", "long": "60 cm", "band": "30 cm")" +
         second + "}]}";
}

} // namespace

TEST_CASE("threads in a row that are cut alike are told together") {
  Job job = tests::job_of(R"({"joins": [{"name": "frill", "long": "80 cm", "band": "40 cm"}]})");
  JoinPlan planned;
  GatheringPlan rows;
  rows.rows = 2;
  rows.at = {6, 10};
  rows.stitch = 4;
  rows.stitches = 100;
  rows.thread = 5000;
  const auto thread = [](int from, int to, double cut) {
    Thread made{};
    made.from = from;
    made.to = to;
    made.cut = cut;
    return made;
  };
  rows.threads = {thread(0, 7, 1100), thread(7, 14, 1100), thread(14, 20, 975), thread(20, 0, 1100)};
  planned.gathering = rows;
  const std::vector<std::string> said = report::gathering(job, job.joins[0], planned);
  REQUIRE(said.size() == 1);
  CHECK(said[0].find("Thread for each row: mark 0 to 7 and 7 to 14, cut 110 cm each; 14 to 20, cut 97.5 cm; 20 to 0, "
                     "cut 110 cm; 500 cm in all.") != std::string::npos);
}

TEST_CASE("rows and limits that are those of the join before are not told again") {
  const std::string alike = text_of(two_frills(""));
  CHECK(times(alike, "Run 2 rows of gathering,") == 1);
  CHECK(times(alike, "Run the rows as before") == 1);
  CHECK(times(alike, "In this cloth it sits well") == 1);
  const std::string other_stitch = text_of(two_frills(R"(, "gathering": {"stitch": "3 mm"})"));
  CHECK(times(other_stitch, "Run 2 rows of gathering,") == 2);
  CHECK(times(other_stitch, "as before") == 0);
  const std::string other_cloth = text_of(two_frills(R"(, "fabric": {"weight": "90 g/m2"})"));
  CHECK(times(other_cloth, "In this cloth it sits well") == 2);
}

TEST_CASE("that folding finds the marks is no note where the equal parts say how to fold, unless every pin is told") {
  const std::string ring = R"({"fabric": {"weight": "150 g/m2"}, "joins": [
    {"name": "tier", "long": "200 cm", "band": "100 cm", "closed": true}]})";
  const Job job = tests::job_of(ring);
  const Plan plan = tests::plan_of(ring);
  const auto notes = [&](report::Pins pins) {
    const std::vector<std::string> said = report::notes_said(job, plan, pins);
    return std::count_if(said.begin(), said.end(),
                         [](const std::string &each) { return each.find("halves again") != std::string::npos; });
  };
  CHECK(text_of(ring).find("fold both edges in half") != std::string::npos);
  CHECK(notes(report::Pins::needed) == 0);
  CHECK(notes(report::Pins::every) == 1);
  CHECK(text_of(two_frills("")).find("every join: folding both edges in halves") != std::string::npos);
}

TEST_CASE("of a join whose edges lie the wrong way round no folding is told and no pins are counted") {
  const std::string swapped = R"({"name": "turned", "long": "22 cm", "band": "52 cm"})";
  const auto job = [](const std::string &joins) {
    return R"({"fabric": {"weight": "150 g/m2"}, "joins": [)" + joins + "]}";
  };
  const std::string alone = text_of(job(swapped));
  CHECK(times(alone, "halves again") == 0);
  CHECK(times(alone, "Count the pins out") == 0);
  const std::string right = R"({"name": "right", "long": "52 cm", "band": "22 cm"})";
  const std::string both = text_of(job(right + ", " + swapped));
  const std::string expected =
      "Count the pins out: " + std::to_string(tests::plan_of(job(right)).joins[0].pins) + " go in.";
  CHECK(times(both, expected) == 1);
  CHECK(times(both, "  - right: folding both edges") == 1);
}
