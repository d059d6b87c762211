// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/json_text.hpp"
#include "cli/report/plan_json.hpp"
#include "cli/report/plan_text.hpp"
#include "cli/report/say.hpp"
#include "tests/hostile_paper.hpp"
#include "tests/made_job.hpp"

#include "tests/cli/commands/command_test.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace gatherwright;
using report::most_held;

namespace {

/// What is said in pieces.
struct Heard {
  std::string all;
  std::size_t pieces = 0;
  std::size_t longest = 0;

  report::Say say() {
    return [this](std::string_view piece) {
      all += piece;
      ++pieces;
      longest = std::max(longest, piece.size());
    };
  }
};

/// A plan of one join, and of many more that are like it.
struct Planned {
  Job job;
  Plan plan;
};

Planned copies(const std::string &text, int joins) {
  Planned made{tests::job_of(text), {}};
  made.plan = tests::plan_of(made.job);
  made.job.joins.assign(static_cast<std::size_t>(joins), Join(made.job.joins[0]));
  made.plan.joins.assign(static_cast<std::size_t>(joins), JoinPlan(made.plan.joins[0]));
  return made;
}

} // namespace

TEST_CASE("what is held is said once it is too much, and forgotten") {
  Heard heard;
  std::string held(most_held, 'a');
  report::say_if_long(held, heard.say());
  CHECK(heard.pieces == 0);
  CHECK(held.size() == most_held);
  held += 'b';
  report::say_if_long(held, {});
  CHECK(held.size() == most_held + 1); // there is no one to say it to
  report::say_if_long(held, heard.say());
  CHECK(heard.pieces == 1);
  CHECK(held.empty());
  CHECK(heard.all.size() == most_held + 1);
  CHECK(heard.all.back() == 'b');
}

TEST_CASE("a long plan as JSON is said in pieces of a few megabytes, which together are the whole") {
  const Planned made = copies(hostile::joins_of_marks(1, 9999, 10'000), 8);
  const std::string whole = report::plan_json(made.job, made.plan);
  REQUIRE(whole.size() > 2 * most_held);
  Heard heard;
  const std::string end = report::plan_json(made.job, made.plan, true, heard.say());
  CHECK((heard.all + end == whole));
  CHECK(heard.pieces >= 2);
  // No more than a mark's worth, or a name's, is added before it is looked at again.
  CHECK(heard.longest < most_held + 10'000);
  CHECK(end.size() <= most_held + 10'000);
}

TEST_CASE("a long plan as text is said in pieces, which together are the whole") {
  const Planned made = copies(hostile::joins_of_marks(1, 2), 60'000);
  const std::string whole = report::plan_text(made.job, made.plan, report::Ink{});
  REQUIRE(whole.size() > 2 * most_held);
  Heard heard;
  const std::string end = report::plan_text(made.job, made.plan, report::Ink{}, heard.say());
  CHECK((heard.all + end == whole));
  CHECK(heard.pieces >= 2);
  CHECK(heard.longest < most_held + 10'000);
}

TEST_CASE("an answer that is not long is held whole, whoever listens") {
  const Planned made = copies(hostile::joins_of_marks(1, 100), 20);
  Heard heard;
  CHECK(report::plan_json(made.job, made.plan, true, heard.say()) == report::plan_json(made.job, made.plan));
  CHECK(report::plan_text(made.job, made.plan, report::Ink{}, heard.say()) ==
        report::plan_text(made.job, made.plan, report::Ink{}));
  CHECK(heard.pieces == 0);
}

TEST_CASE("the commands say a long answer to who listens, and it is the one that they hold where no one does") {
  const command_test::Written job(hostile::joins_of_marks(8, 9999, 10'000));
  const cli::Answer whole = command_test::run({"plan", job.path(), "--json"});
  REQUIRE(whole.out.size() > 2 * most_held);
  Heard heard;
  cli::Surroundings surroundings;
  surroundings.say = heard.say();
  const cli::Answer end = command_test::run({"plan", job.path(), "--json"}, surroundings);
  CHECK(end.status == whole.status);
  CHECK(heard.pieces >= 2);
  CHECK(end.out.size() < 2 * most_held);
  CHECK((heard.all + end.out == whole.out));
}

TEST_CASE("nothing is said of an answer whose file cannot be written") {
  const command_test::Written job(hostile::joins_of_marks(6, 9999, 10'000));
  Heard heard;
  cli::Surroundings surroundings;
  surroundings.say = heard.say();
  const cli::Answer answer =
      command_test::run({"plan", job.path(), "--json", "--sheet", "/nowhere/sheet.html"}, surroundings);
  CHECK(answer.status == cli::Status::machine);
  CHECK(answer.out.empty());
  CHECK(heard.pieces == 0);
}

TEST_CASE("rows of marks are told up to a bound, all joins together, and which are left out is said") {
  const Planned made = copies(hostile::joins_of_marks(1, 9999, 10'000), 4);
  const std::string text = report::plan_text(made.job, made.plan, report::Ink{}, {}, report::Pins::every);
  const std::string left_out = "are left out here; gatherwright plan --json tells all of them.";
  std::vector<std::string> told;
  std::size_t rows = 0;
  for (const std::string &line : command_test::lines_of(text)) {
    const std::size_t begins = line.find("Marks ");
    if (begins != std::string::npos) told.push_back(line.substr(begins, line.find(" are left") - begins));
    const std::size_t first = line.find_first_not_of(' ');
    // A row begins with the mark's number, and sentences that wrap do not reach so far in.
    if (first != std::string::npos && line[first] >= '0' && line[first] <= '9' && line.find("  ", first) < first + 6)
      ++rows;
  }
  CHECK(told == std::vector<std::string>{"Marks 2 to 9998", "Marks 0 to 9998"});
  CHECK(rows == report::most_rows);
}
