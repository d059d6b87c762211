// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/picture/fullness_picture.hpp"
#include "cli/picture/join_picture.hpp"
#include "cli/sheet/sheet_content.hpp"
#include "tests/cli/picture/all_of.hpp"
#include "tests/cli/picture/on_page.hpp"
#include "tests/cli/sheet/sheet_jobs.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace gatherwright;
using namespace gatherwright::paper;

namespace {

/// The heavy lines from seam to seam, from left to right.
std::vector<Line> lines_of_named_marks(const Page &page) {
  std::vector<Line> found;
  for (const Line &line : all<Line>(page))
    if (line.points.size() == 2 && line.pen == 0.45) found.push_back(line);
  return found;
}

/// Ease in a heavy cloth, whose most has two places after the point.
constexpr std::string_view eased_cap = R"({ "unit": "cm", "fabric": { "weight": "320 g/m2", "shrinks": true },
  "joins": [{ "name": "cap", "long": "50 cm", "band": "47 cm", "segments": [
    { "name": "back underarm", "kind": "flat", "band": "7 cm", "to": "back notch" },
    { "name": "back cap", "kind": "ease", "to": "shoulder seam" },
    { "name": "front cap", "kind": "ease", "to": "front notch" },
    { "name": "front underarm", "kind": "flat", "band": "6 cm" } ] }] })";

std::vector<sheet_jobs::Planned> every_job() {
  std::vector<sheet_jobs::Planned> jobs{sheet_jobs::smock(), sheet_jobs::planned(sheet_jobs::too_full_text),
                                        sheet_jobs::planned(eased_cap)};
  for (const char *name : {"09-neck-into-collar", "11-flat-ease-gather", "42-ring", "44-mirrored-inches",
                           "67-fade-cap-bites", "71-shape-hump", "105-gauged-wool", "122-neckline-and-cap"})
    jobs.push_back(sheet_jobs::worked(name));
  return jobs;
}

} // namespace

TEST_CASE("lines join the named marks of both edges, at one scale and in place") {
  const auto [job, plan] = sheet_jobs::smock();
  for (std::size_t join = 0; join < plan.joins.size(); ++join) {
    const JoinPlan &planned = plan.joins[join];
    const std::vector<Line> lines = lines_of_named_marks(join_picture(job, job.joins[join], planned, 184));
    std::vector<Mark> named;
    for (const Mark &mark : planned.marks)
      if (mark.reference) named.push_back(mark);
    REQUIRE(lines.size() == named.size());
    const double scale = (lines.back().points[0].x - lines.front().points[0].x) / planned.long_length;
    CHECK((lines.back().points[1].x - lines.front().points[1].x) / planned.band == Approx(scale));
    // The band lies centred under the long edge.
    CHECK(lines.back().points[0].x + lines.front().points[0].x ==
          Approx(lines.back().points[1].x + lines.front().points[1].x));
    for (std::size_t i = 0; i < named.size(); ++i) {
      CHECK(lines[i].points[0].x - lines[0].points[0].x == Approx(named[i].long_edge.exact * scale).margin(1e-9));
      CHECK(lines[i].points[1].x - lines[0].points[1].x == Approx(named[i].band.exact * scale).margin(1e-9));
    }
  }
}

TEST_CASE("pictures stay on their pages at either width, whatever the job") {
  for (const auto &[job, plan] : every_job())
    for (std::size_t join = 0; join < plan.joins.size(); ++join)
      for (const double width : {184.0, 94.0}) {
        INFO(job.joins[join].name << ", " << width << " mm");
        check_within(join_picture(job, job.joins[join], plan.joins[join], width));
        if (const auto curve = fullness_picture(job.joins[join], plan.joins[join], width)) check_within(*curve);
      }
}

TEST_CASE("names of marks lie clear of one another") {
  for (const auto &[job, plan] : every_job())
    for (std::size_t join = 0; join < plan.joins.size(); ++join) {
      const Page page = join_picture(job, job.joins[join], plan.joins[join], 94);
      double last = -100;
      for (const Text &text : all<Text>(page)) {
        if (text.turned == 0) continue;
        CHECK((text.at.x - last) / std::sqrt(2) > text.size);
        last = text.at.x;
      }
    }
}

TEST_CASE("the curve of a fade rises from 1 to its top and falls again, and has the cloth's length under it") {
  const auto [job, plan] = sheet_jobs::planned(R"({ "fabric": { "weight": "165 g/m2" }, "joins": [
    { "name": "head", "long": "40 cm", "band": "22 cm",
      "segments": [{ "spread": { "fade": ["4 cm", "6 cm"] } }] } ] })");
  const auto curve = local_fullness(plan.joins[0]);
  REQUIRE(curve.size() == 1);
  // Extra 180 mm over 220 mm less half of each fade.
  const double top = 1 + 180.0 / (220 - 20 - 30);
  const auto wanted = [&](double x) { return 1 + (top - 1) * std::min({1.0, x / 40, (220 - x) / 60}); };
  double area = 0;
  for (std::size_t i = 0; i < curve[0].size(); ++i) {
    CHECK(curve[0][i].fullness == Approx(wanted(curve[0][i].band)).margin(0.02));
    if (i > 0)
      area += (curve[0][i].band - curve[0][i - 1].band) * (curve[0][i].fullness + curve[0][i - 1].fullness) / 2;
  }
  CHECK(area == Approx(400).epsilon(1e-3));
  CHECK(curve[0].front().band == 0);
  CHECK(curve[0].back().band == Approx(220));
}

TEST_CASE("without a profile the curve has each stretch's mean") {
  auto [job, plan] = sheet_jobs::smock();
  for (JoinPlan &join : plan.joins)
    join.profile.reset();
  const auto curve = local_fullness(plan.joins[0]);
  REQUIRE(curve.size() == plan.joins[0].segments.size());
  for (std::size_t i = 0; i < curve.size(); ++i)
    for (const LocalFullness &at : curve[i])
      CHECK(at.fullness == plan.joins[0].segments[i].fullness);
}

TEST_CASE("where it is fullest is marked, and said to be too full only where it is") {
  const auto good = sheet_jobs::smock();
  const Page hem = *fullness_picture(good.job.joins[2], good.plan.joins[2], 184);
  CHECK(says(hem, "fullest 2.45"));
  CHECK_FALSE(says(hem, "too full"));
  CHECK(says(hem, "most 2.70"));
  const auto bad = sheet_jobs::planned(sheet_jobs::too_full_text);
  const Page neck = *fullness_picture(bad.job.joins[0], bad.plan.joins[0], 184);
  CHECK(says(neck, ": too full"));
  // The mark lies over the middle of the level part, which is the middle of the band.
  const auto lines = all<Line>(neck);
  const auto mark =
      std::find_if(lines.rbegin(), lines.rend(), [](const Line &line) { return line.points.size() == 32; });
  REQUIRE(mark != lines.rend());
  const auto axis = std::find_if(lines.begin(), lines.end(), [](const Line &line) {
    return line.points.size() == 2 && line.pen == 0.25 && line.points[0].y == line.points[1].y && !line.dashed &&
           line.tone == Tone::ink;
  });
  REQUIRE(axis != lines.end());
  const double centre = (mark->points[0].x + mark->points[16].x) / 2;
  CHECK(centre == Approx((axis->points[0].x + axis->points[1].x) / 2).margin(0.5));
}

TEST_CASE("too little is said to be so where it is fullest") {
  const auto [job, plan] = sheet_jobs::planned(R"({ "fabric": { "weight": "165 g/m2" },
    "joins": [{ "name": "yoke", "long": "44 cm", "band": "40 cm" }] })");
  CHECK(says(*fullness_picture(job.joins[0], plan.joins[0], 184), "fullest 1.10: too scant"));
  CHECK(sheet_of(job, plan).joins[0].fullest == "Fullest: 1.10 to 1; less than the 1.18 that reads as gathers.");
}

TEST_CASE("a join that is plain throughout has no curve") {
  const auto [job, plan] = sheet_jobs::planned(
      R"({ "joins": [{ "name": "side", "long": "40 cm", "band": "40 cm", "segments": [{ "kind": "flat" }] }] })");
  CHECK_FALSE(fullness_picture(job.joins[0], plan.joins[0], 184));
}

TEST_CASE("names of marks are written out where there is room for them") {
  const auto [job, plan] = sheet_jobs::planned(eased_cap);
  for (const double width : {184.0, 94.0}) {
    const Page page = join_picture(job, job.joins[0], plan.joins[0], width);
    for (const std::string_view name : {"start", "back notch", "shoulder seam", "front notch", "end"})
      CHECK(says(page, name));
    CHECK_FALSE(says(page, "…"));
  }
}

TEST_CASE("limits of ease stand beside the plot, whole, with the figures of the table") {
  const auto [job, plan] = sheet_jobs::planned(eased_cap);
  const double most = 100 * (plan.joins[0].segments[1].limits.most - 1);
  REQUIRE(most - std::floor(most) > 0.01);
  for (const double width : {184.0, 94.0}) {
    const Page page = *fullness_picture(job.joins[0], plan.joins[0], width);
    CHECK(says(page, "most " + std::to_string(static_cast<int>(std::lround(most))) + " %"));
    check_within(page);
  }
}

TEST_CASE("a limit with long figures takes its room from the plot") {
  auto [job, plan] = sheet_jobs::planned(
      R"({ "fabric": { "weight": "165 g/m2" }, "joins": [{ "name": "yoke", "long": "60 cm", "band": "30 cm" }] })");
  Limits &limits = plan.joins[0].segments[0].limits;
  limits.most = 1234.56;
  limits.ideal = 234.56;
  const Page page = *fullness_picture(job.joins[0], plan.joins[0], 94);
  CHECK(says(page, "most 1234.56"));
  check_within(page);
}
