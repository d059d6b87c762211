// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/start_jobs.hpp"
#include "tests/made_job.hpp"
#include "tests/solver/cloth/published.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>

// Published pieces and bodies beside whole plans: tests/data/published.csv.

using namespace gatherwright;
using gatherwright::tests::published;

namespace {

/// The armhole of a job to start from: the band of its join into one, millimetres.
double armhole_of(std::string_view name) {
  for (const cli::StartJob &start : cli::start_jobs()) {
    if (start.name != name) continue;
    const Job job = tests::job_of(start.text);
    const Plan plan = tests::plan_of(job);
    for (std::size_t j = 0; j < job.joins.size(); ++j)
      if (job.joins[j].name == "sleeve into armhole") return plan.joins[j].band;
  }
  FAIL("no armhole in " << name);
  return 0;
}

/// How far two standard deviations below and above the mean of scye circumferences lie, millimetres.
std::array<double, 2> scye_of(std::string_view whose) {
  for (const auto &row : published("body"))
    if (row.what.find(whose) != std::string::npos) return *row.figure;
  FAIL("no scye of " << whose);
  return {};
}

} // namespace

// Museum record of a pleated skirt: waist 72 cm of which 51 lie flat, hem 480 cm.
TEST_CASE("a waistband of which a part lies flat has all the fullness in the rest") {
  const Plan plan = tests::plan_of(R"({"gathering": {"stitch": "19.5 mm"}, "joins": [{"name": "skirt into its band",
    "long": "480 cm", "band": "72 cm", "segments": [
      {"name": "front", "kind": "flat", "long": "51 cm"}, {"name": "pleats", "kind": "gauge"}]}]})");
  const SegmentPlan &pleats = plan.joins[0].segments[1];
  // Differences and a quotient of lengths, each rounded a few times.
  CHECK(pleats.band == Approx(210).epsilon(1e-12));
  CHECK(pleats.long_length == Approx(4290).epsilon(1e-12));
  CHECK(pleats.fullness == Approx(4290 / 210.0).epsilon(1e-12));
  CHECK(pleats.fullness == Approx((*published("packed")[1].figure)[0]).epsilon(0.002));
  CHECK(pleats.folds.value().count == 110); // the record counts them: two stitches of half of 3.9 cm each
  CHECK(plan.joins[0].long_length / plan.joins[0].band == Approx(480 / 72.0));
}

// 1988 Anthropometric Survey of U.S. Army Personnel: the scye is the line round the arm at the shoulder.
TEST_CASE("the armholes to start from go round the arms they are for") {
  const auto women = scye_of("women");
  const auto men = scye_of(" men");
  // Set in: round every woman's within two standard deviations with room, and round four men's in ten.
  CHECK(armhole_of("set-in-sleeve") > women[1]);
  const double deviations = (armhole_of("set-in-sleeve") - (men[0] + men[1]) / 2) / ((men[1] - men[0]) / 4);
  CHECK(std::erfc(-deviations / std::sqrt(2)) / 2 == Approx(0.42).margin(0.01));
  // Straight sleeves have a gusset at the underarm, whose two sides come on top. With sides as long as the part beside
  // it that is sewn plain, 10 cm, the whole goes round every man's; without it, hardly round a woman's.
  for (const std::string_view job : {"sleeve-head", "smock"}) {
    CHECK(armhole_of(job) > women[0]);
    CHECK(armhole_of(job) < women[1]);
    CHECK(armhole_of(job) + 2 * 100 > men[1]);
  }
}
