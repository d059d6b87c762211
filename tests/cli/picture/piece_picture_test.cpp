// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/picture/piece_picture.hpp"
#include "tests/cli/picture/all_of.hpp"
#include "tests/cli/picture/marked_piece.hpp"
#include "tests/cli/picture/on_page.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <random>

using namespace gatherwright;
using namespace gatherwright::paper;

namespace {

Page picture(const marked::Planned &planned, double width, PieceShown shown = PieceShown::first) {
  return piece_picture(planned.job, planned.plan, PieceId(0), shown, {width, 150});
}

/// The cut edges: the first closed line.
Line outline(const Page &page) {
  for (const Line &line : all<Line>(page))
    if (line.closed && line.points.size() == 4 && line.fill == Tone::none) return line;
  FAIL("no outline");
  return {};
}

/// How far from the left or the top cut corner the signs of named marks stand on a side, in millimetres of cloth.
std::vector<double> named_on(const Page &page, Side side, double cut_across) {
  const Line cut = outline(page);
  const Point first = cut.points[0];
  const Point last = cut.points[2];
  const double scale = (last.x - first.x) / cut_across;
  std::vector<double> found;
  for (const Line &line : all<Line>(page)) {
    if (line.points.size() != 3 || line.fill != Tone::ink) continue;
    const Point foot = line.points[0];
    const bool here = side == Side::top      ? std::abs(foot.y - first.y) < 1e-9
                      : side == Side::bottom ? std::abs(foot.y - last.y) < 1e-9
                      : side == Side::left   ? std::abs(foot.x - first.x) < 1e-9
                                             : std::abs(foot.x - last.x) < 1e-9;
    if (here) found.push_back(((runs_across(side) ? foot.x - first.x : foot.y - first.y)) / scale);
  }
  return found;
}

marked::Piece random_piece(std::uint32_t seed) {
  std::mt19937 random(seed);
  const auto between = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  marked::Piece piece{.name = "piece " + std::to_string(seed),
                      .cut = 2,
                      .across = between(20, 1500),
                      .along = between(20, 2500),
                      .allowance = {between(0, 20), 10, 0, between(0, 30)},
                      .parts = {},
                      .mirrored = true};
  for (const Side side : all_sides) {
    const double length = runs_across(side) ? piece.across : piece.along;
    marked::Part part{side, "a join with a long name", {{0, "start"}}};
    const int pins = static_cast<int>(random() % 60);
    for (int i = 1; i < pins; ++i)
      part.marks.push_back({length * i / pins, random() % 5 == 0 ? "a mark with a name" : ""});
    part.marks.push_back({length, "end"});
    piece.parts.push_back(part);
  }
  return piece;
}

} // namespace

TEST_CASE("a piece's named marks stand at their distances from the cut corners") {
  const marked::Planned sleeve = marked::planned(marked::sleeve());
  const Page page = picture(sleeve, 184);
  for (const auto &[side, wanted] : {std::pair(Side::top, std::vector<double>{10, 120, 270, 440, 530}),
                                     std::pair(Side::bottom, std::vector<double>{10, 25, 515, 530}),
                                     std::pair(Side::left, std::vector<double>{10, 110}),
                                     std::pair(Side::right, std::vector<double>{10, 110, 500, 570})}) {
    const std::vector<double> found = named_on(page, side, 540);
    REQUIRE(found.size() == wanted.size());
    for (std::size_t i = 0; i < wanted.size(); ++i)
      CHECK(found[i] == Approx(wanted[i]));
  }
  for (const std::string_view label : {"12 gathers begin", "27 shoulder", "51.5 gathers end", "11 gusset ends", "20"})
    CHECK(says(page, label));
}

TEST_CASE("the picture of the second of a pair is that of the first turned over left for right") {
  const marked::Planned sleeve = marked::planned(marked::sleeve());
  const Page first = picture(sleeve, 184);
  const Page second = picture(sleeve, 184, PieceShown::mirrored);
  for (const Side side : all_sides) {
    std::vector<double> turned = named_on(second, turned_over(side), 540);
    if (runs_across(side)) {
      for (double &at : turned)
        at = 540 - at;
      std::reverse(turned.begin(), turned.end());
    }
    const std::vector<double> as_first = named_on(first, side, 540);
    REQUIRE(turned.size() == as_first.size());
    for (std::size_t i = 0; i < turned.size(); ++i)
      CHECK(turned[i] == Approx(as_first[i]));
  }
  CHECK(says(second, "the second of a pair"));
}

TEST_CASE("seam lines are dashed inside the cut edges, by the sides' own allowances") {
  const Page page = picture(marked::planned(marked::sleeve()), 184);
  const Line cut = outline(page);
  const double scale = (cut.points[2].x - cut.points[0].x) / 540;
  std::vector<Line> seams;
  for (const Line &line : all<Line>(page))
    if (line.dashed && line.points[0].y < cut.points[2].y + 1) seams.push_back(line);
  REQUIRE(seams.size() == 4);
  CHECK(seams[0].points[0].y - cut.points[0].y == Approx(10 * scale));
  CHECK(cut.points[2].y - seams[1].points[0].y == Approx(15 * scale));
  CHECK(seams[2].points[0].x - cut.points[0].x == Approx(10 * scale));
  marked::Piece bare = marked::sleeve();
  bare.allowance = {};
  const Page without = picture(marked::planned(bare), 184);
  CHECK_FALSE(says(without, "seam line"));
}

TEST_CASE("pictures of pieces stay on their pages at either width") {
  std::vector<marked::Piece> pieces{marked::sleeve(), marked::collar()};
  for (std::uint32_t seed = 1; seed <= 40; ++seed)
    pieces.push_back(random_piece(seed));
  for (const marked::Piece &piece : pieces)
    for (const double width : {184.0, 94.0}) {
      INFO(piece.name << " at " << width);
      const marked::Planned planned = marked::planned(piece);
      check_within(picture(planned, width));
      if (piece.mirrored) check_within(picture(planned, width, PieceShown::mirrored));
    }
}

TEST_CASE("labels of a side's marks keep clear of one another") {
  for (std::uint32_t seed = 1; seed <= 40; ++seed)
    for (const double width : {184.0, 94.0}) {
      const Page page = picture(marked::planned(random_piece(seed)), width);
      const std::vector<Text> texts = all<Text>(page);
      for (std::size_t i = 0; i < texts.size(); ++i)
        for (std::size_t j = 0; j < i; ++j) {
          const Text &a = texts[i];
          const Text &b = texts[j];
          if (a.turned != b.turned || std::abs(a.turned) != 45) continue;
          // Lines of text that lean alike, by how far apart their bases are.
          CHECK(std::abs(a.at.x - b.at.x) / std::sqrt(2) > a.size * 1.2);
        }
    }
}

TEST_CASE("labels within a piece keep clear of its edges, of its name and of one another") {
  int within = 0;
  for (const double width : {184.0, 90.0})
    for (const char *name : {"gusset", "a seam"}) {
      marked::Piece body{.name = "body", .across = 700, .along = 900, .allowance = {10, 30, 10, 10}, .parts = {}};
      body.parts = {{Side::top, "neck", {{200, "start"}, {350, "middle"}, {500, "end"}}},
                    {Side::left, "armhole", {{0, name}, {40}, {60, name}, {170, "end"}}},
                    {Side::right, "armhole", {{0, name}, {50}, {60, name}, {170, "end"}}}};
      const Page page = picture(marked::planned(body), width);
      const Line cut = outline(page);
      std::vector<Text> level;
      for (const Text &text : all<Text>(page))
        if (text.turned == 0 && text.at.y > cut.points[0].y && text.at.y < cut.points[2].y) level.push_back(text);
      for (std::size_t i = 0; i < level.size(); ++i) {
        const auto at = corners(level[i]);
        CHECK(at.front().x > cut.points[0].x);
        CHECK(at.back().x < cut.points[2].x);
        for (std::size_t j = 0; j < i; ++j) {
          const auto other = corners(level[j]);
          const bool beside = at.front().x >= other.back().x || other.front().x >= at.back().x;
          const bool apart = std::abs(level[i].at.y - level[j].at.y) > 2.7;
          CHECK((beside || apart));
        }
        if (level[i].says.find(name) != std::string::npos) ++within;
      }
    }
  CHECK(within == 2 * 2 * 4);
}

TEST_CASE("a right side that is marked as the left says so in place of the same labels") {
  marked::Piece body{.name = "body", .across = 700, .along = 900, .allowance = {10, 10, 10, 10}, .parts = {}};
  const auto planned = [&](double right) {
    body.parts = {{Side::left, "armhole", {{0, "start"}, {170, "notch"}}},
                  {Side::right, "armhole", {{0, "start"}, {right, "notch"}}}};
    marked::Planned made = marked::planned(body);
    // One join for both, as of a sleeve that is sewn in twice.
    for (PieceMark &mark : made.plan.pieces[0].marks)
      mark.edge = made.plan.pieces[0].marks.front().edge;
    return made;
  };
  const Page alike = picture(planned(170), 184);
  CHECK(says(alike, "as left"));
  CHECK(named_on(alike, Side::right, 720).size() == 2);
  CHECK_FALSE(says(picture(planned(180), 184), "as left"));
}

TEST_CASE("labels stand upright where they would have no room leaning, and whether all are told is known") {
  const marked::Planned collar = marked::planned(marked::collar());
  const auto turned = [](const Page &page, double degrees) {
    const std::vector<Text> texts = all<Text>(page);
    return std::count_if(texts.begin(), texts.end(), [&](const Text &text) { return text.turned == degrees; });
  };
  const std::size_t marks = collar.plan.pieces[0].marks.size();
  for (const double width : {60.0, 70.0, 80.0, 90.0, 184.0}) {
    const Page page = picture(collar, width);
    std::size_t told = 0;
    const bool whole = !says(page, "…");
    for (const Text &text : all<Text>(page))
      told += std::abs(text.turned) == 45 || text.turned == 90 ? 1 : 0;
    CHECK(tells_every_mark(collar.job, collar.plan, PieceId(0), PieceShown::first, {width, 150}) ==
          (told == marks && whole));
  }
  CHECK(turned(picture(collar, 90), 90) > 0);
  CHECK(turned(picture(collar, 90), 45) == 0);
  CHECK(turned(picture(collar, 184), 45) > 0);
}

TEST_CASE("each side says what is sewn to it, and the warp runs along the piece") {
  const Page page = picture(marked::planned(marked::sleeve()), 184);
  CHECK(says(page, "sleeve head into armhole"));
  CHECK(says(page, "sleeve hem into cuff"));
  CHECK(says(page, "warp"));
  CHECK(says(page, "sleeve, the first of a pair, cut 2: 54 cm across, 58.5 cm along"));
  const Page tie = picture(marked::planned({.name = "tie", .across = 40, .along = 4, .parts = {}}), 94);
  CHECK(says(tie, "warp"));
}

TEST_CASE("a piece is told in words for whoever cannot see it") {
  CHECK(picture(marked::planned(marked::sleeve()), 184).label ==
        "Picture: sleeve, the first of a pair, cut 2: 54 cm across, 58.5 cm along; marks: 11 at the top, 14 at the "
        "bottom, 2 at the left and 4 at the right.");
}
