// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/made_job.hpp"
#include "tests/where.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <string>

// Facts of the trade, met by the example smock. Common practice, no source, each of them.

using namespace gatherwright;

namespace {

std::string example() {
  std::ifstream file(in_project("docs/examples/porters-smock.json"));
  return {std::istreambuf_iterator<char>(file), {}};
}

struct Smock {
  Job job = tests::job_of(example());
  Plan plan = tests::plan_of(job);

  double length(const std::string &name) const {
    for (std::size_t i = 0; i < job.lengths.size(); ++i)
      if (job.lengths[i].name == name) return plan.lengths[i].is.value();
    FAIL("no length " << name);
    return 0;
  }
  int join(const std::string &name) const {
    for (std::size_t j = 0; j < job.joins.size(); ++j)
      if (job.joins[j].name == name) return static_cast<int>(j);
    FAIL("no join " << name);
    return 0;
  }
  /// Where the reference mark of this name stands.
  const Mark &mark(int join, const std::string &name) const {
    for (const Mark &mark : plan.joins[join].marks)
      if (mark.reference && mark.ends_segment && job.joins[join].segments[*mark.ends_segment].to == name) return mark;
    FAIL("no mark " << name);
    return plan.joins[join].marks.front();
  }
};

} // namespace

TEST_CASE("the example smock is within limits and certified") {
  const Smock smock;
  CHECK(smock.plan.verdict == Verdict::within_limits);
  CHECK(smock.plan.findings.empty());
  REQUIRE(smock.plan.certificate);
  CHECK(smock.plan.certificate->stationarity <= 1e-9);
}

TEST_CASE("a sleeve head goes into 4 to 6 inches at the top of the shoulder, the gusset part flat (common practice, no "
          "source)") {
  const Smock smock;
  const int join = smock.join("sleeve head into armhole");
  double gathered = 0;
  for (std::size_t s = 0; s < smock.job.joins[join].segments.size(); ++s) {
    const bool flat = smock.job.joins[join].segments[s].kind == Kind::flat;
    const bool at_an_end = s == 0 || s + 1 == smock.job.joins[join].segments.size();
    CHECK(flat == at_an_end);
    if (!flat) gathered += smock.plan.joins[join].segments[s].band;
  }
  CHECK(gathered / 25.4 >= 4);
  CHECK(gathered / 25.4 <= 6);
}

TEST_CASE("the centre of a cuff meets the centre of the sleeve, and their edges meet (common practice, no source)") {
  const Smock smock;
  const int join = smock.join("sleeve hem into cuff");
  const JoinPlan &plan = smock.plan.joins[join];
  const Mark &centre = smock.mark(join, "centre");
  CHECK(centre.band.exact == Approx(plan.band / 2));
  CHECK(centre.long_edge.exact == Approx(plan.long_length / 2));
  CHECK(plan.marks.front().band.exact == 0);
  CHECK(plan.marks.front().long_edge.exact == 0);
  CHECK(plan.marks.back().band.tape == plan.band);
  CHECK(plan.marks.back().long_edge.tape == plan.long_length);
}

TEST_CASE("gathers at a neck stop short of the shoulder seams, which are marked on the collar with the centre back "
          "(common practice, no source)") {
  const Smock smock;
  const int join = smock.join("neck into collar");
  for (const char *shoulder : {"left shoulder", "right shoulder"}) {
    const Mark &mark = smock.mark(join, shoulder);
    CHECK(smock.job.joins[join].segments[mark.ends_segment.value()].kind == Kind::flat);
    CHECK(smock.job.joins[join].segments[mark.segment].kind == Kind::flat);
  }
  const Mark &back = smock.mark(join, "centre back");
  CHECK(back.band.exact == Approx(smock.plan.joins[join].band / 2));
  CHECK(back.long_edge.exact == Approx(smock.plan.joins[join].long_length / 2));
}

TEST_CASE("a shoulder seam is 2 to 3 inches more than from neck to tip (common practice, no source)") {
  const Smock smock;
  double to_tip = 0;
  for (const Measure &measure : smock.job.measures)
    if (measure.name == "neck_to_tip") to_tip = measure.is.mm;
  const double more = (smock.length("shoulder") - to_tip) / 25.4;
  CHECK(more >= 2);
  CHECK(more <= 3);
}

TEST_CASE("slits of neck and cuff are what is usual (common practice, no source)") {
  const Smock smock;
  CHECK(smock.length("neck_slit") / 25.4 >= 5);
  CHECK(smock.length("neck_slit") / 25.4 <= 10);
  CHECK(smock.length("cuff_slit") / 25.4 >= 2);
  CHECK(smock.length("cuff_slit") / 25.4 <= 3);
}
