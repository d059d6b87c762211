// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/pieces_text.hpp"
#include "cli/report/pieces_words.hpp"
#include "cli/report/plan_text.hpp"
#include "cli/words/columns.hpp"
#include "tests/cli/report/sample_pieces.hpp"
#include "tests/holds.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <sstream>
#include <string>

using namespace gatherwright;
using gatherwright::tests::holds;
using report::Ink;

namespace {

std::string text(const Job &job, const Plan &plan) {
  return report::pieces_text(job, plan, Ink{});
}

} // namespace

TEST_CASE("what to cut, what is sewn where and how much cloth it takes") {
  const std::string told = text(sample::job_with_pieces(), sample::plan_with_pieces());
  CAPTURE(told);
  CHECK(told.starts_with(R"(
What to cut
  Cut sizes, allowances included; along is down the selvedge.
                     across  along
  piece   cut            cm     cm  allowances
  sleeve  2, a pair      54   58.5  1 cm, bottom 1.5 cm
  cuff    2, a pair      24   14    1 cm
  collar  1              40   10    1 cm
  Between seams, and in brackets what will do: cuff 22 cm (20.2 cm up); sleeve
  52 cm, chosen (45 cm to 60 cm).
What is sewn to each side
  Marks (cm) are from the cut corner at the left or at the top.
  sleeve, bottom: sleeve into cuff, long edge: 1 start, 4 slit end, 16.2, 28.5,
    40.8, 53 end.
  cuff, top: sleeve into cuff, band: 1 start, 4 slit end, 8.8, 13.5, 18.2, 23
    end.
  The other of a pair (sleeve, cuff) is this one turned over: marked from the
  right along top and bottom.

Cloth
  Buy 0.6 m of washed linen, 150 cm wide (148 cm of it to use). The pieces take
  58.5 cm of it, 85 % used; nothing shorter is possible.
)"));
  // Then how: cutting_said, whose own tests say the rest.
  CHECK(holds(told, "\n  Straighten one end on a thread and take off the selvedges, 1 cm at each side.\n  Cut "));
}

TEST_CASE("lengths that are sizes of pieces are told with the pieces alone") {
  const std::string whole = report::plan_text(sample::job_with_pieces(), sample::plan_with_pieces(), Ink{});
  CHECK(holds(whole, "What to cut"));
  CHECK(holds(whole, "  slit is 8 cm"));
  CHECK_FALSE(holds(whole, "Make the sleeve"));
  CHECK_FALSE(holds(whole, "cuff is 22 cm"));
  const std::string without = report::plan_text(sample::job(), sample::plan(), Ink{});
  CHECK_FALSE(holds(without, "What to cut"));
  CHECK(holds(without, "cuff is 22 cm"));
}

TEST_CASE("an allowance that every side has is told once") {
  Plan plan = sample::plan_with_pieces();
  plan.pieces[0].allowance[Side::bottom] = 10;
  const std::string told = text(sample::job_with_pieces(), plan);
  CHECK(holds(told, "Cut sizes, with 1 cm of allowance on every side; along is down the selvedge."));
  CHECK_FALSE(holds(told, "allowances"));
  for (PiecePlan &piece : plan.pieces)
    piece.allowance = {};
  CHECK(holds(text(sample::job_with_pieces(), plan), "Cut sizes, without any allowance;"));
}

TEST_CASE("four allowances go on in the next line of the table, and no line is too wide") {
  Plan plan = sample::plan_with_pieces();
  Job job = sample::job_with_pieces();
  plan.pieces[0].allowance.of_sides = {12, 15, 25, 30};
  job.pieces[0].name = "the sleeve of the tallest of all the porters, left and right";
  for (const Unit unit : {Unit::cm, Unit::in, Unit::yd}) {
    job.unit = unit;
    std::istringstream lines(text(job, plan));
    for (std::string line; std::getline(lines, line);)
      CHECK(report::columns(line) <= report::text_width);
  }
  job.unit = Unit::cm;
  CHECK(holds(text(job, plan), "  1.2 cm, bottom 1.5 cm,\n"));
  CHECK(holds(text(job, plan), "  left 2.5 cm, right 3 cm\n"));
}

TEST_CASE("where a shorter layout is not ruled out, the least that any can be is told") {
  Plan plan = sample::plan_with_pieces();
  plan.cloth[0].shortest = false;
  plan.cloth[0].bound = 560;
  const std::string told = text(sample::job_with_pieces(), plan);
  CHECK(holds(told, "no layout is shorter than 56"));
  CHECK_FALSE(holds(told, "nothing shorter"));
}

TEST_CASE("cloth that shrinks is told washed and as bought") {
  Plan plan = sample::plan_with_pieces();
  plan.cloth[0].cloth.shrinkage = {.along = 0.05, .across = 0.02};
  plan.cloth[0].usable = 1450;
  plan.cloth[0].buy = 585 / 0.95;
  plan.cloth[0].buy_by_step = 700;
  std::string told = text(sample::job_with_pieces(), plan);
  std::replace(told.begin(), told.end(), '\n', ' ');
  CHECK(holds(told, "Buy 0.7 m of washed linen, 150 cm wide (145 cm of it to use once washed)."));
  CHECK(holds(told, "The   pieces take 58.5 cm of it once washed, 61.6 cm as bought"));
}

TEST_CASE("pieces too wide for their cloth are named with it") {
  Plan plan = sample::plan_with_pieces();
  plan.pieces[2].too_wide = true;
  CHECK(holds(text(sample::job_with_pieces(), plan), "Too wide for their cloth, and left out of this: collar."));
}

TEST_CASE("where there are several cloths each is said to be for its pieces") {
  Plan plan = sample::plan_with_pieces();
  plan.cloth.push_back(plan.cloth[0]);
  plan.cloth[1].cloth.name = "";
  plan.cloth[0].lay.pop_back();
  plan.cloth[1].lay.erase(plan.cloth[1].lay.begin(), plan.cloth[1].lay.end() - 1);
  std::string told = text(sample::job_with_pieces(), plan);
  std::replace(told.begin(), told.end(), '\n', ' ');
  CHECK(holds(told, "Buy 0.6 m of washed linen, 150 cm wide (148 cm of it to use), for sleeve,   cuff."));
  CHECK(holds(told, "Buy 0.6 m of the cloth, 150 cm wide (148 cm of it to use), for collar."));
}

TEST_CASE("where rules conflict nothing is said of what to cut") {
  Plan conflicting;
  conflicting.verdict = Verdict::rules_conflict;
  CHECK(text(sample::job_with_pieces(), conflicting).empty());
}

TEST_CASE("a pair whose pieces are marked alike needs no word on the other") {
  Plan plan = sample::plan_with_pieces();
  for (PiecePlan &piece : plan.pieces)
    if (piece.marks_mirrored) piece.marks_mirrored = piece.marks;
  CHECK_FALSE(holds(text(sample::job_with_pieces(), plan), "turned over"));
}

TEST_CASE("sides that are marked alike are told once") {
  Plan plan = sample::plan_with_pieces();
  PiecePlan &collar = plan.pieces[2];
  for (const Side side : {Side::left, Side::right})
    for (PieceMark mark : plan.pieces[1].marks) {
      mark.side = side;
      collar.marks.push_back(mark);
    }
  CHECK(holds(text(sample::job_with_pieces(), plan),
              "cuff, top; collar, left and right: sleeve into cuff, band: 1 start"));
}

TEST_CASE("of a pair with marks on its left or right the other has them on the other side") {
  Plan plan = sample::plan_with_pieces();
  PiecePlan &cuff = plan.pieces[1];
  PieceMark mark = cuff.marks.front();
  mark.side = Side::left;
  cuff.marks.push_back(mark);
  mark.side = Side::right;
  cuff.marks_mirrored->push_back(mark);
  std::string told = text(sample::job_with_pieces(), plan);
  std::erase_if(told, [](char c) { return c == '\n' || c == ' '; }); // however it is broken into lines
  CHECK(holds(told, "alongtopandbottom,itsleftsideasthisone'sright."));
}
