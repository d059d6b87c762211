// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/shown_marks.hpp"

#include "cli/report/mark_table.hpp"
#include "cli/report/plan_text.hpp"
#include "tests/made_job.hpp"

#include <cmath>

using namespace gatherwright;
using report::Pins;

namespace {

/// A join as a job has it, with what stands in it.
std::string job_with(const std::string &join) {
  return R"({"fabric": {"weight": "150 g/m2"}, "joins": [{"name": "frill", )" + join + "}]}";
}

/// What is shown of the only join of a job.
struct Shown {
  Job job;
  Plan plan;
  report::ShownMarks marks;

  explicit Shown(const std::string &join, Pins pins = Pins::needed)
      : job(tests::job_of(job_with(join))), plan(tests::plan_of(job_with(join))),
        marks(report::shown_marks(job, job.joins[0], plan.joins[0], plan.joins[0].marks, pins)) {}

  std::vector<std::string> said() const {
    return report::instead_of_marks(job, job.joins[0], plan.joins[0].marks, marks);
  }
  bool alike() const { return report::reads_alike(job.joins[0], plan.joins[0]); }
};

const std::string symmetrical = R"("segments": [{"kind": "flat", "long": "2 cm", "to": "a"}, {}, {"to": "b"},
                                               {"kind": "flat", "long": "2 cm"}])";

} // namespace

TEST_CASE("more than eight pins in equal parts are one line, with the step on both edges and how often to fold") {
  const Shown sixteen(R"("long": "101 cm", "band": "48 cm", "marks": {"parts": 16})");
  REQUIRE(sixteen.marks.rows.size() == 2);
  CHECK(sixteen.marks.rows[0].next == 16u);
  CHECK_FALSE(sixteen.marks.rows[1].next);
  CHECK(sixteen.said() ==
        std::vector<std::string>{"16 equal parts from mark 0 to mark 16: each 3 cm of the band and "
                                 "about 6.3 cm of the long edge, 16 stitches; fold both edges in half 4 "
                                 "times."});
  CHECK(Shown(R"("long": "100 cm", "band": "48 cm", "marks": {"parts": 9})").marks.parts.empty());
  CHECK(Shown(R"("long": "100 cm", "band": "48 cm", "marks": {"parts": 16})", Pins::every).marks.rows.size() == 17);
}

TEST_CASE("pins that no fold finds and that lie between two marks of the tape keep their rows") {
  const Shown on_the_tape(R"("long": "99 cm", "band": "44 cm", "marks": {"parts": 11})");
  CHECK(on_the_tape.said().at(0).find("fold") == std::string::npos);
  CHECK(on_the_tape.marks.rows.size() == 2);
  CHECK(Shown(R"("long": "100 cm", "band": "44 cm", "marks": {"parts": 11})").marks.parts.empty());
}

TEST_CASE("a ring's equal parts lead round to its start") {
  const Shown ring(R"("long": "100 cm", "band": "48 cm", "closed": true, "marks": {"parts": 12})");
  REQUIRE(ring.marks.parts.size() == 1);
  CHECK(ring.marks.parts[0].to == ring.plan.joins[0].marks.size());
  CHECK(ring.said().at(0).find("12 equal parts all round from mark 0: ") == 0);
  CHECK(ring.said().at(0).find("in three, then in half 2 times") != std::string::npos);
  const Shown plain_first(R"("long": "104 cm", "band": "52 cm", "closed": true, "marks": {"parts": 12},
                             "segments": [{"kind": "flat", "long": "4 cm"}, {}])");
  CHECK(plain_first.said().at(0).find("12 equal parts from mark 1 round to mark 0 again: ") == 0);
}

TEST_CASE("a join that reads the same from both ends shows one half with the names of both") {
  const Shown shown(R"("long": "84 cm", "band": "44 cm", "marks": {"parts": 4}, )" + symmetrical);
  const JoinPlan &join = shown.plan.joins[0];
  REQUIRE(shown.alike());
  REQUIRE(shown.marks.half);
  // Start, the end of the plain part, three pins, the middle; then the same again.
  REQUIRE(join.marks.size() == 11);
  REQUIRE(shown.marks.rows.size() == 6);
  CHECK_FALSE(shown.marks.rows.back().next);
  CHECK(shown.said() == std::vector<std::string>{"Marks 6 to 10: the other half the same, from the other end (9 b)."});
  CHECK(report::mark_said(shown.job.joins[0], join, join.marks, 1, false, true) == "a, b");
  for (std::size_t n = 0; n < join.marks.size(); ++n) {
    const Mark &other = join.marks[report::opposite(shown.job.joins[0], join, n)];
    CHECK(join.marks[n].band.exact + other.band.exact == Approx(join.band));
    CHECK(join.marks[n].long_edge.exact + other.long_edge.exact == Approx(join.long_length));
  }
  CHECK_FALSE(
      Shown(R"("long": "84 cm", "band": "44 cm", "marks": {"parts": 4}, )" + symmetrical, Pins::every).marks.half);
}

TEST_CASE("a join that differs from end to end shows all of itself") {
  const Shown shown(R"("long": "84 cm", "band": "44 cm", "marks": {"parts": 4},
    "segments": [{"kind": "flat", "long": "2 cm"}, {}, {}, {"kind": "flat", "long": "3 cm"}])");
  CHECK_FALSE(shown.alike());
  CHECK(shown.marks.rows.size() == shown.plan.joins[0].marks.size());
}

TEST_CASE("the ends of a mirrored piece are its start and its end") {
  const std::string text = job_with(R"("long": "84 cm", "band": "44 cm", "make": 2,
    "segments": [{"kind": "flat", "long": "2 cm"}, {}, {"kind": "flat", "long": "3 cm"}])");
  const Plan plan = tests::plan_of(text);
  const Job job = tests::job_of(text);
  const auto &marks = plan.joins[0].marks_mirrored.value();
  CHECK(report::mark_said(job.joins[0], plan.joins[0], marks, 0, true, false) == "start");
  CHECK(report::mark_said(job.joins[0], plan.joins[0], marks, marks.size() - 1, true, false) == "end");
}
