// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/plan_text.hpp"
#include "cli/words/columns.hpp"
#include "tests/cli/report/sample_pieces.hpp"
#include "tests/holds.hpp"

#include <catch2/catch.hpp>

#include <random>

using namespace gatherwright;
using gatherwright::tests::holds;

namespace {

int widest_line(const std::string &text) {
  int widest = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find('\n', at);
    widest = std::max(widest, report::columns(std::string_view(text).substr(at, end - at)));
    at = end + 1;
  }
  return widest;
}

/// Everything that may stand in a text, so that its widest lines are among it.
Plan with_everything() {
  Plan plan = sample::plan();
  plan.findings = sample::every_finding();
  for (const Change &change : sample::every_change(-14, 234)) {
    const bool of_one = plan.remedies.size() % 2 == 1;
    plan.remedies.push_back({of_one ? std::optional(sample::cuff_join) : std::nullopt, change});
  }
  plan.notes = sample::every_note();
  plan.cautions = sample::every_caution();
  plan.joins[0].cord = 720;
  plan.pieces = sample::plan_with_pieces().pieces;
  plan.cloth = sample::plan_with_pieces().cloth;
  plan.verdict = Verdict::rule_broken;
  plan.joins[0].verdict = plan.joins[0].segments[1].verdict = Verdict::too_full;
  return plan;
}

std::string random_name(std::mt19937_64 &random) {
  static const std::vector<std::string> pieces{
      "a",          "cuff", " ",   "-", "ä", "A\u0308", "袖口", "\x1b[7m", "\n", "\xe2\x80\xae", "verylongword",
      "\U0001f9f5", ":",    "\xff"};
  std::string name;
  for (int n = 1 + static_cast<int>(random() % 30); n > 0; --n)
    name += pieces[random() % pieces.size()];
  return name;
}

} // namespace

TEST_CASE("the verdict comes first, and what to do about it before the tables") {
  const std::string text = report::plan_text(sample::job_with_pieces(), with_everything(), {});
  CHECK(text.starts_with("Porter's smock\nVerdict: rule broken;"));
  CHECK(text.find("What is wrong") < text.find("What would put it right"));
  CHECK(text.find("What would put it right") < text.find("What to cut"));
  CHECK(text.find("What to cut") < text.find("Lengths given"));
  CHECK(text.find("Lengths given") < text.find("\nsleeve into cuff"));
  CHECK(text.find("\nneck into collar") < text.find("\nNotes"));
}

TEST_CASE("found lengths are told as what to make, with the room there is") {
  const std::string text = report::plan_text(sample::job(), sample::plan(), {});
  CHECK(holds(text, "  Make the sleeve 52 cm; anything from 45 cm to 60 cm will do.\n"));
  CHECK(holds(text, "  cuff is 22 cm; anything from 20.2 cm up will do.\n"));
  CHECK(holds(text, "  slit is 8 cm.\n"));
}

TEST_CASE("the room of a length is rounded to the side that holds, and said to be elsewhere where it is") {
  Plan plan = sample::plan();
  plan.lengths[0].room = Interval{202.3, 241.8};
  plan.lengths[1].room = Interval{90, 250};
  plan.lengths[2].room = Interval{520, 520};
  const std::string text = report::plan_text(sample::job(), plan, {});
  CHECK(holds(text, "cuff is 22 cm; anything from 20.3 cm to 24.1 cm will do."));
  CHECK(holds(text, "slit is 8 cm; anything from 9 cm to 25 cm would do."));
  CHECK(holds(text, "Make the sleeve 52 cm; no other will do."));
  plan.lengths[0].room = Interval{std::nullopt, std::nullopt};
  plan.lengths[1].room = Interval{0, 250};
  plan.lengths[2].room = Interval{0, std::nullopt};
  const std::string open = report::plan_text(sample::job(), plan, {});
  CHECK(holds(open, "cuff is 22 cm; any length will do."));
  CHECK(holds(open, "slit is 8 cm; anything up to 25 cm will do."));
  CHECK(holds(open, "Make the sleeve 52 cm; any length will do."));
}

TEST_CASE("a join has one table with its marks, fullness, what to lose and stitches") {
  CHECK(holds(report::plan_text(sample::job(), sample::plan(), {}),
              "                band  long edge  to the next mark   stitches\n"
              "  no  mark        cm         cm  fullness  to lose  in all  showing\n"
              "   0  start      0          0       plain\n"
              "   1  slit end   3          3        2.54      7.4      31       15\n"
              "   2             7.8       15.2      2.62      7.6      31       15\n"
              "   3            12.5       27.5      2.62      7.6      31       15\n"
              "   4            17.2       39.8      2.54      7.4      31       15\n"
              "   5  end       22         52\n"));
}

TEST_CASE("the mirrored piece has a table of its own only where its marks lie elsewhere") {
  Job job = sample::job();
  Plan plan = sample::plan();
  CHECK(holds(report::plan_text(job, plan, {}), "The mirrored one, read from its own start:\n"));
  plan.joins[1].marks_mirrored = plan.joins[1].marks;
  job.joins[1].mirrored = true;
  const std::string text = report::plan_text(job, plan, {});
  CHECK(holds(text, "The mirrored one is marked the same.\n"));
}

TEST_CASE("a certificate is nothing for a person") {
  CHECK_FALSE(holds(report::plan_text(sample::job(), sample::plan(), {}), "ertificate"));
}

TEST_CASE("what is said of several joins is said once") {
  Plan plan = sample::plan();
  for (const int join : {0, 1})
    plan.notes.push_back(note::SharedStep{EdgeAt(JoinId(join), WhichEdge::long_edge)});
  CHECK(holds(report::plan_text(sample::job(), plan, {}), "  - every join: two marks of the"));
}

TEST_CASE("a conflict has no tables and does not tell lengths that are not known") {
  Plan plan = sample::plan();
  plan.verdict = Verdict::rules_conflict;
  plan.joins.clear();
  plan.conflict =
      Conflict{{condition::Holds{RuleId(1)}, condition::InRange{LengthId(2), condition::InRange::End::from}}, 0};
  plan.lengths[2].is.reset();
  const std::string text = report::plan_text(sample::job(), plan, {});
  CHECK(holds(text, "These cannot all hold: 2 * sleeve <= 150 cm; sleeve from 45 cm."));
  CHECK(holds(text, "cuff is 22 cm"));
  CHECK_FALSE(holds(text, "Make the sleeve"));
  CHECK_FALSE(holds(text, "104 cm"));
}

TEST_CASE("no line is wider than a terminal or moves it, whatever the names and the unit") {
  std::mt19937_64 random(3);
  for (int i = 0; i < 300; ++i) {
    Job job = sample::renamed(sample::job_with_pieces(), random_name(random));
    job.unit = std::array{Unit::mm, Unit::cm, Unit::m, Unit::in, Unit::ft, Unit::yd}[random() % 6];
    job.tape_step = Length{std::array{1.0, 2.0, 25.4 / 16, 25.4 / 64}[random() % 4]};
    Plan plan = with_everything();
    const double scale = std::array{1.0, 1.0, 37.03, 1e3}[random() % 4];
    for (JoinPlan &join : plan.joins) {
      join.long_length *= scale;
      join.band *= scale;
      const auto rescale = [scale](std::vector<Mark> &marks) {
        for (Mark &mark : marks)
          for (MarkPlace *place : {&mark.long_edge, &mark.band})
            place->exact = place->tape = place->tape * scale;
      };
      rescale(join.marks);
      if (join.marks_mirrored) rescale(*join.marks_mirrored);
    }
    for (PiecePlan &piece : plan.pieces) {
      piece.cut_across.tape *= scale;
      piece.allowance.of_sides = {10, 10 * scale, 15, 12.3};
      for (PieceMark &mark : piece.marks)
        mark.tape *= scale;
    }
    const std::string text = report::plan_text(job, plan, {});
    CAPTURE(text);
    REQUIRE(widest_line(text) <= report::text_width);
    for (const char c : text)
      REQUIRE((c == '\n' || (static_cast<unsigned char>(c) >= 0x20 && c != 0x7f)));
  }
}

TEST_CASE("colour adds codes and nothing else") {
  const std::string plain = report::plan_text(sample::job_with_pieces(), with_everything(), {});
  std::string coloured = report::plan_text(sample::job_with_pieces(), with_everything(), {.colour = true});
  CHECK_FALSE(holds(plain, "\x1b"));
  CHECK(holds(coloured, "\x1b[1;31mrule broken\x1b[0m"));
  for (std::size_t at = coloured.find('\x1b'); at != std::string::npos; at = coloured.find('\x1b'))
    coloured.erase(at, coloured.find('m', at) + 1 - at);
  CHECK(coloured == plain);
}
