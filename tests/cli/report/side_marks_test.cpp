// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/side_marks.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace gatherwright;
using report::Pins;
using report::SideRun;
using report::ToldMarks;

namespace {

/// A side with an allowance of 10 mm before it, and the long edge of one join sewn to it.
struct Sewn {
  Job job;
  Plan plan;
  PiecePlan piece;
  double length = 20; ///< cut

  Sewn() {
    job.unit = Unit::cm;
    Join join;
    join.name = "neck into collar";
    job.joins = {join};
    plan.joins.emplace_back();
    reference(0);
  }

  /// A stretch of the edge with pins that leave so many equal parts of `step`.
  Sewn &stretch(int parts, double step, std::string to = "") {
    for (int i = 1; i < parts; ++i)
      mark(at_ + i * step).reference = false;
    Segment segment;
    segment.to = std::move(to);
    job.joins.front().segments.push_back(segment);
    reference(at_ + parts * step).ends_segment = static_cast<int>(job.joins.front().segments.size()) - 1;
    return *this;
  }

  Sewn &pins(const std::vector<double> &at) {
    for (const double each : at)
      mark(at_ + each).reference = false;
    return *this;
  }

  SideRun run() const {
    const std::vector<SideRun> runs = report::side_runs(piece);
    REQUIRE(runs.size() == 1);
    return runs.front();
  }

  ToldMarks told(Pins pins = Pins::needed) const { return report::told_marks(job, plan, run(), length, pins); }

  std::string said(Pins pins = Pins::needed, std::size_t most = 1000) const {
    return report::marks_said(job, plan, run(), told(pins), most);
  }

private:
  Mark &reference(double at) {
    Mark &made = mark(at);
    made.reference = true;
    at_ = at;
    return made;
  }

  Mark &mark(double at) {
    std::vector<Mark> &marks = plan.joins.front().marks;
    piece.marks.push_back({Side::top, EdgeAt(JoinId(0), WhichEdge::long_edge), static_cast<int>(marks.size()), 10 + at,
                           10 + std::ceil(at - 0.5)});
    length = 20 + at;
    return marks.emplace_back();
  }

  double at_ = 0;
};

/// Every place that what is told comes to, worked out again from it.
std::vector<double> places(const SideRun &run, const ToldMarks &told, double length) {
  std::vector<double> all;
  for (std::size_t i = 0; i < told.told.size(); ++i) {
    const auto &[mark, parts, each] = told.told[i];
    const double at = run.marks[mark].exact;
    all.push_back(at);
    if (!parts) continue;
    const double to = run.marks[told.told.at(i + 1).mark].exact;
    for (std::size_t part = 1; part < *parts; ++part)
      all.push_back(at + (to - at) * static_cast<double>(part) / static_cast<double>(*parts));
  }
  const std::size_t first_half = all.size();
  for (std::size_t i = 0; told.half && i < first_half; ++i)
    if (const double other = length - all[first_half - 1 - i]; other > all[first_half - 1] + 1e-6) all.push_back(other);
  return all;
}

void check_gives_all(const Sewn &sewn) {
  const SideRun run = sewn.run();
  for (const Pins pins : {Pins::needed, Pins::every}) {
    const std::vector<double> all = places(run, sewn.told(pins), sewn.length);
    REQUIRE(all.size() == run.marks.size());
    for (std::size_t i = 0; i < all.size(); ++i)
      CHECK(all[i] == Approx(run.marks[i].exact).margin(1e-9));
  }
}

} // namespace

TEST_CASE("what is told of a side gives back every mark of it") {
  for (const int first : {1, 2, 3, 4, 5, 6, 7, 8, 12, 16})
    for (const int second : {1, 2, 4, 5, 8})
      for (const int third : {1, 2, 5, 8, 9})
        for (const double step : {7.0, 7.3}) {
          INFO(first << ", " << second << ", " << third << " parts of " << step);
          check_gives_all(Sewn().stretch(first, step).stretch(second, 10).stretch(third, step));
          check_gives_all(Sewn().stretch(first, step).stretch(second, 10).stretch(second, 10).stretch(first, step));
          check_gives_all(Sewn().pins({3, 8, 14}).stretch(second, 20).stretch(third, step));
        }
}

TEST_CASE("a side's marks are told from the cut corner, with their names") {
  CHECK(Sewn().stretch(1, 30, "slit").stretch(4, 50).said() == "1 start, 4 slit, 9, 14, 19, 24 end");
}

TEST_CASE("more than four parts that folding finds are told as that") {
  CHECK(Sewn().stretch(1, 30, "slit").stretch(8, 50.25).said() == "1 start, 4 slit, then 8 equal parts to 44.2 end");
  CHECK(Sewn().stretch(6, 50.25).said() == "1 start, then 6 equal parts to 31.1 end");
}

TEST_CASE("parts that folding does not find are told by their length, if that is on the tape") {
  CHECK(Sewn().stretch(5, 30).said() == "1 start, then 5 parts of 3 cm to 16 end");
  CHECK(Sewn().stretch(1, 20).stretch(5, 30.25).told().told.size() == 7);
}

TEST_CASE("of a side that is the same from its other end one half is told") {
  const Sewn sewn = Sewn()
                        .stretch(1, 30, "gathers begin")
                        .stretch(8, 20.5, "centre back")
                        .stretch(8, 20.5, "gathers end")
                        .stretch(1, 30);
  CHECK(sewn.said() == "1 start, 4 gathers begin, then 8 equal parts to 20.4 centre "
                       "back; the other half the same from the right (gathers end)");
}

TEST_CASE("with every mark none is left out of a side") {
  const Sewn sewn = Sewn().stretch(1, 30).stretch(8, 20).stretch(8, 20).stretch(1, 30);
  CHECK(sewn.told(Pins::every).told.size() == 19);
  CHECK_FALSE(sewn.told(Pins::every).half);
}

TEST_CASE("marks of a side that are too many are said to be left out") {
  CHECK(Sewn().stretch(4, 50).said(Pins::needed, 2) ==
        "1 start, 6; 3 marks are left out here; gatherwright plan --json tells all of "
        "them");
}

TEST_CASE("marks of two edges on one side are told apart, and so are two parts of one edge") {
  PiecePlan piece;
  const EdgeAt one(JoinId(0), WhichEdge::long_edge);
  const EdgeAt other(JoinId(0), WhichEdge::band);
  const auto put = [&](EdgeAt edge, int mark, double at) { piece.marks.push_back({Side::left, edge, mark, at, at}); };
  put(one, 0, 10);
  put(other, 0, 20); // begins before the first has ended
  put(one, 1, 30);
  put(other, 1, 40);
  put(one, 4, 50); // another part of the first
  put(one, 5, 60);
  const std::vector<SideRun> runs = report::side_runs(piece);
  REQUIRE(runs.size() == 3);
  CHECK(runs[0].marks.back().exact == 30);
  CHECK(runs[1].edge == other);
  CHECK(runs[2].marks.front().mark == 4);
}
