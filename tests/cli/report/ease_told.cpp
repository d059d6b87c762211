// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/report/plan_text.hpp"
#include "tests/made_job.hpp"
#include "tests/where.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <sstream>
#include <string>

using namespace gatherwright;

namespace {

std::string jacket() {
  std::ifstream file(in_project("docs/examples/porters-jacket.json"));
  return {std::istreambuf_iterator<char>(file), {}};
}

} // namespace

TEST_CASE("the jacket's caps are eased in within limits, most where the edge lies on the bias") {
  const Plan plan = tests::plan_of(jacket());
  CHECK(plan.verdict == Verdict::within_limits);
  REQUIRE(plan.joins.size() == 1);
  const std::vector<SegmentPlan> &segments = plan.joins[0].segments;
  REQUIRE(segments.size() == 4);
  CHECK(segments[0].fullness == Approx(1).epsilon(1e-12));
  CHECK(segments[3].fullness == Approx(1).epsilon(1e-12));
  for (const int s : {1, 2}) {
    CHECK(segments[s].fullness > 1.02);
    CHECK(segments[s].fullness <= segments[s].limits.most);
    CHECK(segments[s].fullest > segments[s].slackest + 0.01); // the crown lies along the weft, the sides on the bias
  }
}

TEST_CASE("beside each gap stands its ease, and the most that works in without a fold") {
  const Job job = tests::job_of(jacket());
  const Plan plan = tests::plan_of(job);
  const JoinPlan &join = plan.joins[0];
  std::istringstream lines(report::plan_text(job, plan, {}));
  std::string line;
  while (std::getline(lines, line) && line.find("to the next mark") == std::string::npos)
    ;
  std::getline(lines, line); // the names of the columns
  for (const Mark &mark : join.marks) {
    REQUIRE(std::getline(lines, line));
    CAPTURE(line);
    const SegmentPlan &segment = join.segments[mark.segment];
    const bool eases = job.joins[0].segments[mark.segment].kind == Kind::ease && mark.fullness_to_next.has_value();
    const auto of = line.find(" of ");
    if (!eases) {
      CHECK(of == std::string::npos);
      continue;
    }
    REQUIRE(of != std::string::npos);
    const double ease = std::stod(line.substr(line.rfind(' ', of - 1)));
    const double most = std::stod(line.substr(of + 4));
    CHECK(std::abs(ease - 100 * (*mark.fullness_to_next - 1)) <= 0.5 + 1e-9); // as it is rounded
    CHECK(std::abs(most - 100 * (segment.limits.most - 1)) <= 0.5 + 1e-9);
  }
}
