// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/drawing/extent.hpp"
#include "cli/picture/drawn_edge_picture.hpp"
#include "cli/sheet/sheet.hpp"
#include "cli/sheet/sheet_content.hpp"
#include "tests/cli/picture/all_of.hpp"
#include "tests/cli/sheet/sheet_jobs.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

using namespace gatherwright;
using namespace gatherwright::paper;

namespace {

/// Half a circle of 10 cm radius, its ends level, with an allowance of 2 cm.
sheet_jobs::Planned half_circle(std::string_view garment) {
  return sheet_jobs::planned(fmt::format(R"({{ "fabric": {{ "weight": "165 g/m2" }}, "joins": [{{ "name": "head",
    "long": {{ "path": "M 0 100 A 100 100 0 0 1 200 100", "path_unit": "mm", "allowance": "2 cm", "garment": "{}" }},
    "band": "16 cm", "segments": [
      {{ "kind": "flat", "band": "3 cm", "to": "back" }}, {{ "to": "front" }}, {{ "kind": "flat", "band": "3 cm" }} ] }}] }})",
                                         garment));
}

/// The polyline with the most points, dashed or not.
Line longest_line(const Page &page, bool dashed) {
  Line longest;
  for (const Line &line : all<Line>(page))
    if (line.dashed == dashed && !line.closed && line.points.size() > longest.points.size()) longest = line;
  return longest;
}

/// Page to cloth, off the bar that is "5 cm" long.
double scale_of(const Page &page, double bar) {
  for (const Line &line : all<Line>(page))
    if (line.points.size() == 2 && line.pen == 0.4 && line.points[0].y == line.points[1].y &&
        line.points[0].x == Approx(0.4))
      return (line.points[1].x - line.points[0].x) / bar;
  return 0;
}

double apart(Point a, Point b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

/// Every picture of an edge as it is drawn of jobs of many sorts, at the widths of a sheet.
std::vector<Page> pictures() {
  std::vector<sheet_jobs::Planned> jobs{sheet_jobs::worked("122-neckline-and-cap"),
                                        sheet_jobs::worked("83-drawn-with-allowance")};
  for (const char *garment : {"left", "right"})
    jobs.push_back(half_circle(garment));
  std::string crowded = R"({ "fabric": { "weight": "165 g/m2" }, "marks": { "parts": 8 }, "joins": [{ "name": "many",
    "long": { "path": "M 0 0 C 40 90 80 -90 120 0 L 120 300", "path_unit": "mm", "allowance": "1 cm", "garment": "left",
      "ends": ["6 cm", "3 cm"] },
    "band": "24 cm", "segments": [)";
  for (int i = 0; i < 11; ++i)
    crowded += fmt::format(R"({{ "band": "2 cm", "to": "a mark with a name as long as that, number {}" }}, )", i);
  jobs.push_back(sheet_jobs::planned(crowded + R"({ "to": "last" } ] }] })"));
  std::vector<Page> pages;
  for (const auto &[job, plan] : jobs)
    for (std::size_t join = 0; join < plan.joins.size(); ++join)
      for (const WhichEdge edge : {WhichEdge::long_edge, WhichEdge::band})
        for (const double width : {184.0, 94.0})
          if (points_as_drawn(plan.joins[join], edge) > 0)
            pages.push_back(drawn_edge_picture(job, job.joins[join], plan.joins[join], edge, width));
  return pages;
}

/// Without air round it, and without the room that accents take.
Box room_of(const Text &text) {
  Box box = extent_of(text);
  box.top = text.at.y - 0.7 * text.size;
  box.bottom = text.at.y;
  return box;
}

} // namespace

TEST_CASE("a half circle as drawn is one at the scale that is shown, with its stitching line at the allowance") {
  for (const auto &[garment, radius] : {std::pair("right", 80.0), std::pair("left", 120.0)}) {
    const auto [job, plan] = half_circle(garment);
    const Page page = drawn_edge_picture(job, job.joins[0], plan.joins[0], WhichEdge::long_edge, 184);
    const Line cut = longest_line(page, false);
    REQUIRE(cut.points.size() > 10);
    const Point from = cut.points.front();
    const Point to = cut.points.back();
    const Point centre{(from.x + to.x) / 2, (from.y + to.y) / 2};
    const double scale = apart(from, to) / 200;
    CHECK(scale <= 1);
    CHECK(scale_of(page, 50) == Approx(scale));
    const auto texts = all<Text>(page);
    CHECK(std::any_of(texts.begin(), texts.end(), [](const Text &text) { return text.says == "5 cm"; }));
    // An outline keeps within 0.02 mm of its curve.
    for (const Point &at : cut.points)
      CHECK(apart(at, centre) == Approx(100 * scale).margin(0.02 * scale));
    const Line stitching = longest_line(page, true);
    REQUIRE(stitching.points.size() > 10);
    for (const Point &at : stitching.points)
      CHECK(apart(at, centre) == Approx(radius * scale).margin(0.02 * scale));
    // The word lies beyond the stitching line, on the other side of the cut edge.
    const auto word = std::find_if(texts.begin(), texts.end(), [](const Text &text) { return text.says == "garment"; });
    REQUIRE(word != texts.end());
    const Box box = room_of(*word);
    const double off = apart({(box.left + box.right) / 2, (box.top + box.bottom) / 2}, centre);
    CHECK((radius < 100 ? off < radius * scale : off > radius * scale));
  }
}

TEST_CASE("marks go across from the cut edge to the stitching line at their places") {
  const auto [job, plan] = half_circle("right");
  const Page page = drawn_edge_picture(job, job.joins[0], plan.joins[0], WhichEdge::long_edge, 184);
  const Line cut = longest_line(page, false);
  const Point centre{(cut.points.front().x + cut.points.back().x) / 2, cut.points.front().y};
  const double scale = apart(cut.points.front(), cut.points.back()) / 200;
  std::vector<Line> across;
  for (const Line &line : all<Line>(page))
    if (line.points.size() == 2 && line.pen == 0.45) across.push_back(line);
  std::vector<Mark> named;
  for (const Mark &mark : plan.joins[0].marks)
    if (mark.reference) named.push_back(mark);
  REQUIRE(named.size() == 4);
  REQUIRE(across.size() == named.size());
  for (std::size_t i = 0; i < named.size(); ++i) {
    CHECK(apart(across[i].points[0], centre) == Approx(100 * scale).margin(0.02 * scale));
    CHECK(apart(across[i].points[1], centre) < 80 * scale);
    // The stitching line is half a circle of 8 cm radius, walked from the left over the top.
    const Point foot = across[i].points[0];
    const double angle = std::atan2(centre.y - foot.y, centre.x - foot.x);
    CHECK(80 * angle == Approx(named[i].long_edge.exact).margin(2)); // marks lie on the tape's steps
  }
}

TEST_CASE("no label of an edge as drawn lies over another or over a line") {
  std::size_t labels = 0;
  for (const Page &page : pictures()) {
    INFO(page.label);
    const auto texts = all<Text>(page);
    labels += texts.size();
    for (std::size_t i = 0; i < texts.size(); ++i) {
      INFO(texts[i].says);
      const Box box = room_of(texts[i]);
      for (std::size_t j = 0; j < i; ++j)
        CHECK_FALSE(box.meets(room_of(texts[j])));
      for (const Line &line : all<Line>(page)) {
        bool over = false;
        for (std::size_t k = 1; k < line.points.size(); ++k)
          over = over || (line.tone != Tone::soft && crosses(line.points[k - 1], line.points[k], box));
        CHECK_FALSE(over);
      }
    }
  }
  CHECK(labels > 100);
}

TEST_CASE("edges as drawn stay within their pictures at either width, labels and ends too") {
  const std::vector<Page> pages = pictures();
  CHECK(pages.size() >= 12);
  for (const Page &page : pages) {
    INFO(page.label);
    const Box box = extent_of(page.items);
    CHECK(box.left >= -0.3);
    CHECK(box.right <= page.width + 0.3);
    CHECK(box.top >= -0.3);
    CHECK(box.bottom <= page.height + 0.3);
    CHECK(page.height <= 170);
  }
}

TEST_CASE("the label of an edge as drawn says where the garment lies and names the marks") {
  const auto [job, plan] = half_circle("right");
  const Page page = drawn_edge_picture(job, job.joins[0], plan.joins[0], WhichEdge::long_edge, 94);
  CHECK(page.label.find("long edge as it is drawn") != std::string::npos);
  CHECK(page.label.find("2 cm inside the cut edge; the garment lies below the line as drawn.") != std::string::npos);
  for (const char *name : {"0 start", " back", " front", " end"})
    CHECK(page.label.find(name) != std::string::npos);
}

TEST_CASE("the sheet has a picture of every drawn edge as it is drawn, and none of a length") {
  const auto [job, plan] = half_circle("right");
  const std::vector<AsDrawn> shown = sheet_of(job, plan).joins[0].as_drawn;
  REQUIRE(shown.size() == 1);
  CHECK(shown[0].edge == WhichEdge::long_edge);
  CHECK(shown[0].caption == "The long edge as it is drawn; the garment lies below the line as drawn.");
  CHECK(sheet_html(job, plan).find("Picture: the long edge as it is drawn") != std::string::npos);
  const auto smock = sheet_jobs::smock();
  for (const JoinSheet &join : sheet_of(smock.job, smock.plan).joins)
    CHECK(join.as_drawn.empty());
}

TEST_CASE("a tangle, and what a sheet has no room for, is not shown as it is drawn, and the sheet says so") {
  const auto said = [](const Sheet &sheet) {
    const std::vector<std::string> &words = sheet.joins.at(0).of_the_picture;
    return sheet.joins[0].as_drawn.empty() &&
           std::find(words.begin(), words.end(), "The long edge as it is drawn is too long a line to be shown here.") !=
               words.end();
  };
  const auto [job, plan] = half_circle("right");
  CHECK(said(sheet_of(job, plan, {.points = 10})));
  std::string path = "M 0 0";
  for (int i = 1; i <= 100; ++i)
    path += fmt::format(" L {} {}", i % 2 * 100, i);
  const auto tangle = sheet_jobs::planned(R"({ "fabric": { "weight": "165 g/m2" }, "joins": [{ "name": "to and fro",
    "long": { "path": ")" + path + R"(", "path_unit": "mm" }, "band": "5 m" }] })");
  CHECK(points_as_drawn(tangle.plan.joins[0], WhichEdge::long_edge) == 0);
  CHECK(said(sheet_of(tangle.job, tangle.plan)));
}

TEST_CASE("a line crosses a box where any of it lies inside") {
  const Box box{0, 0, 2, 1};
  CHECK(crosses({-1, 0.5}, {3, 0.5}, box));
  CHECK(crosses({1, 0.5}, {1, 0.6}, box));
  CHECK(crosses({-1, 0.5}, {1, 0.5}, box));
  CHECK_FALSE(crosses({-1, 2}, {3, 2}, box));
  CHECK_FALSE(crosses({3, 0.5}, {4, 0.5}, box));
  CHECK_FALSE(crosses({-1, 0.5}, {1, 2.5}, box));
}
