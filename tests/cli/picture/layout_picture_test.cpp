// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/drawing/extent.hpp"
#include "cli/picture/layout_picture.hpp"
#include "tests/cli/picture/all_of.hpp"
#include "tests/cli/picture/on_page.hpp"
#include "tests/cli/words/laid.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <charconv>
#include <map>
#include <set>

using namespace gatherwright;
using namespace gatherwright::paper;

namespace {

constexpr double highest = 230;

Box box_of(const Text &text) {
  const std::vector<Point> at = corners(text);
  Box box{at[0].x, at[0].y, at[0].x, at[0].y};
  for (const Point &point : at)
    box = {std::min(box.left, point.x), std::min(box.top, point.y), std::max(box.right, point.x),
           std::max(box.bottom, point.y)};
  // Ascenders are allowed for in full, which figures beside one another do not have.
  return {box.left + 0.05, box.top + 0.1, box.right - 0.05, box.bottom - 0.1};
}

void check_nothing_overprints(const Page &page) {
  const std::vector<Text> texts = all<Text>(page);
  for (std::size_t i = 0; i < texts.size(); ++i)
    for (std::size_t j = i + 1; j < texts.size(); ++j) {
      INFO(texts[i].says << " and " << texts[j].says << " of " << page.label);
      CHECK_FALSE(box_of(texts[i]).meets(box_of(texts[j])));
    }
}

/// Rectangles without a filling: pieces, and signs in the key below them.
std::vector<Line> outlines(const Page &page) {
  std::vector<Line> found;
  for (const Line &line : all<Line>(page))
    if (line.closed && line.points.size() == 4 && line.fill == Tone::none && line.pen > 0.2) found.push_back(line);
  return found;
}

/// Whole numbers that stand by themselves, how often each.
std::map<int, int> numbers(const Page &page) {
  std::map<int, int> found;
  for (const Text &text : all<Text>(page)) {
    int number = 0;
    const auto [end, fault] = std::from_chars(text.says.data(), text.says.data() + text.says.size(), number);
    // Places beside the cloth begin where they stand; numbers of cuts stand about their middle.
    if (fault == std::errc() && end == text.says.data() + text.says.size() && text.anchor == Anchor::middle)
      ++found[number];
  }
  return found;
}

std::vector<laid::Laid> some_layouts() {
  std::vector<laid::Laid> layouts{laid::smock(), laid::lay(laid::smock_pieces(), 1480, {1, 1.04, 1.1})};
  for (std::uint32_t seed = 1; seed <= 12; ++seed)
    layouts.push_back(laid::random(seed));
  return layouts;
}

} // namespace

TEST_CASE("pictures of layouts stay on their pages at either width, and no name or number lies over another") {
  for (const laid::Laid &laid : some_layouts())
    for (const double width : {184.0, 94.0}) {
      const std::vector<Page> pages = layout_pictures(laid.told(), width, highest);
      REQUIRE(!pages.empty());
      for (const Page &page : pages) {
        CHECK(page.height <= highest);
        check_within(page);
        check_nothing_overprints(page);
      }
    }
}

TEST_CASE("pieces are drawn where they lie, at one scale") {
  const laid::Laid smock = laid::smock();
  const Page page = layout_pictures(smock.told(), 184, highest).at(0);
  const std::vector<Line> drawn = outlines(page);
  REQUIRE(drawn.size() >= smock.cloth.lay.size());
  // The first two pieces tell the scale and the corner.
  const auto find = [&](double wide, double high, double left, double top) {
    return std::count_if(drawn.begin(), drawn.end(), [&](const Line &line) {
      return std::abs(line.points[0].x - left) < 1e-6 && std::abs(line.points[0].y - top) < 1e-6 &&
             std::abs(line.points[2].x - line.points[0].x - wide) < 1e-6 &&
             std::abs(line.points[2].y - line.points[0].y - high) < 1e-6;
    });
  };
  const auto widest = std::max_element(drawn.begin(), drawn.end(), [](const Line &a, const Line &b) {
    return a.points[2].x - a.points[0].x < b.points[2].x - b.points[0].x;
  });
  const double scale = (widest->points[2].x - widest->points[0].x) / 735;
  const auto body = std::find_if(smock.cloth.lay.begin(), smock.cloth.lay.end(),
                                 [](const Placement &placed) { return placed.across == 0 && placed.along == 0; });
  REQUIRE(body != smock.cloth.lay.end());
  const auto first = std::min_element(drawn.begin(), drawn.end(), [](const Line &a, const Line &b) {
    return a.points[0].x + a.points[0].y < b.points[0].x + b.points[0].y;
  });
  const Point corner = first->points[0];
  for (const Placement &placed : smock.cloth.lay) {
    const WearersPieces::Size &size = smock.pieces[0].sizes[placed.piece.at];
    CHECK(find(size.across * scale, size.along * scale, corner.x + placed.across * scale,
               corner.y + placed.along * scale) == 1);
  }
}

TEST_CASE("every kind of piece is named in the picture or below it") {
  for (const laid::Laid &laid : some_layouts())
    for (const double width : {184.0, 94.0}) {
      const std::vector<Page> pages = layout_pictures(laid.told(), width, highest);
      for (const Piece &piece : laid.job.pieces) {
        INFO(piece.name << " at " << width);
        const bool named = std::any_of(pages.begin(), pages.end(), [&](const Page &page) {
          return says(page, piece.name) || says(page, "the smallest pieces are not named");
        });
        CHECK(named);
      }
    }
}

TEST_CASE("cuts have their numbers, each where it is; what is left out is said") {
  for (const laid::Laid &laid : some_layouts()) {
    const std::vector<Page> pages = layout_pictures(laid.told(), 184, highest);
    std::set<int> found;
    bool left_out = false;
    for (const Page &page : pages) {
      for (const auto &[number, times] : numbers(page))
        found.insert(number);
      left_out = left_out || says(page, "cuts too short for a number have none");
    }
    if (laid.cloth.cuts.empty()) continue;
    CHECK(*found.begin() >= 1);
    CHECK(*found.rbegin() <= static_cast<int>(laid.cloth.cuts.size()));
    if (!left_out) CHECK(found.size() == laid.cloth.cuts.size());
  }
}

TEST_CASE("numbers of cuts lie on their cuts") {
  const laid::Laid strips = laid::lay({{"tie", 3, 400, 300}}, 1480);
  const Page page = layout_pictures(strips.told(), 184, highest).at(0);
  REQUIRE(strips.cloth.cuts.size() == 3);
  const std::vector<Line> drawn = outlines(page);
  REQUIRE(drawn.size() >= 3);
  std::vector<double> edges;
  for (const Line &line : drawn)
    edges.insert(edges.end(), {line.points[0].x, line.points[2].x});
  for (const Text &text : all<Text>(page))
    if (text.anchor == Anchor::middle && text.says.size() == 1 && text.size == 2.5 && text.at.y < page.height - 12)
      CHECK(std::any_of(edges.begin(), edges.end(), [&](double x) { return std::abs(x - text.at.x) < 1e-6; }));
}

TEST_CASE("what is left over is hatched, and nothing else") {
  const laid::Laid smock = laid::smock();
  const Page page = layout_pictures(smock.told(), 184, highest).at(0);
  const std::vector<Line> drawn = outlines(page);
  const auto in_piece = [&](Point at) {
    return std::any_of(drawn.begin(), drawn.begin() + static_cast<std::ptrdiff_t>(smock.cloth.lay.size()),
                       [&](const Line &line) {
                         return at.x > line.points[0].x + 1e-6 && at.x < line.points[2].x - 1e-6 &&
                                at.y > line.points[0].y + 1e-6 && at.y < line.points[2].y - 1e-6;
                       });
  };
  double length = 0;
  for (const Line &line : all<Line>(page)) {
    if (line.tone != Tone::soft || line.points.size() != 2) continue;
    const Point from = line.points[0];
    const Point to = line.points[1];
    if (from.y > page.height - 14) continue; // the sign in the key
    CHECK_FALSE(in_piece({(from.x + to.x) / 2, (from.y + to.y) / 2}));
    length += std::hypot(to.x - from.x, to.y - from.y);
  }
  // Strokes so far apart fill an area of so much for each length.
  const Line &body = *std::max_element(drawn.begin(), drawn.end(), [](const Line &a, const Line &b) {
    return a.points[2].x - a.points[0].x < b.points[2].x - b.points[0].x;
  });
  const double scale = (body.points[2].x - body.points[0].x) / 735;
  const double scrap = (1 - smock.cloth.used) * smock.cloth.usable * smock.cloth.length * scale * scale;
  CHECK(length * 2 == Approx(scrap).epsilon(0.03));
}

TEST_CASE("selvedges lie beside what is used, where the cloth has any") {
  const auto strips = [](const laid::Laid &laid) {
    const std::vector<Line> lines = all<Line>(layout_pictures(laid.told(), 184, highest).at(0));
    return std::count_if(lines.begin(), lines.end(),
                         [](const Line &line) { return line.fill == Tone::pale && line.pen == 0; });
  };
  laid::Laid smock = laid::smock();
  CHECK(strips(smock) == 2);
  smock.cloth.cloth.selvedge = Length{0};
  CHECK(strips(smock) == 0);
  CHECK_FALSE(says(layout_pictures(smock.told(), 184, highest).at(0), "selvedge"));
}

TEST_CASE("a letter stands for pieces too small for their name, and is explained") {
  const laid::Laid smock = laid::smock();
  const Page page = layout_pictures(smock.told(), 184, highest).at(0);
  const std::vector<Text> texts = all<Text>(page);
  const auto letters = std::count_if(texts.begin(), texts.end(), [](const Text &text) { return text.says == "A"; });
  CHECK(letters == 8 + 1);
  CHECK(says(page, "small square 4 x 4"));
}

TEST_CASE("a long name is written over several lines where a piece has room for it") {
  const laid::Laid apron = laid::lay({{"apron bib with a long name", 1, 400, 600}}, 1480);
  const Page page = layout_pictures(apron.told(), 184, highest).at(0);
  CHECK(says(page, "40 x 60"));
  CHECK(says(page, "apron bib"));
  CHECK_FALSE(says(page, "…"));
}

TEST_CASE("a layout says its sizes as the tape reads") {
  laid::Laid inches = laid::lay({{"sleeve", 2, 21.25 * 25.4, 23 * 25.4}}, 58 * 25.4);
  inches.job.unit = Unit::in;
  inches.job.tape_step = Length{25.4 / 8};
  const Page page = layout_pictures(inches.told(), 184, highest).at(0);
  CHECK(says(page, "21 1/4 x 23"));
  CHECK(says(page, "58 in"));
  CHECK(says(page, "a square is 2 in"));
  CHECK(says(page, "sizes in inches, across x along"));
}

TEST_CASE("ten thousand pieces take no more pages than anyone turns, and those that cannot be read go without names") {
  std::vector<laid::Kind> kinds{{"small square", 9'999, 40, 40}, {"cloak", 1, 1400, 1800}};
  const laid::Laid many = laid::lay(kinds, 1480);
  const std::vector<Page> pages = layout_pictures(many.told(), 184, highest);
  CHECK(pages.size() <= 30);
  CHECK(says(pages.front(), "too small to be named: small square 4 x 4"));
  CHECK(std::any_of(pages.begin(), pages.end(), [](const Page &page) { return says(page, "cloak"); }));
  std::size_t items = 0;
  for (const Page &page : pages)
    items += page.items.size();
  CHECK(items < 100'000);
}

TEST_CASE("a layout is told in words for whoever cannot see it") {
  const laid::Laid smock = laid::smock();
  CHECK(
      layout_pictures(smock.told(), 184, highest).at(0).label ==
      "Picture: how 2 bodies, 2 sleeves, 2 cuffs, collar, 2 gussets, 2 straps and 8 small squares lie on washed linen, "
      "on 163 cm of it, 148 cm wide, with 25 cuts numbered in their order.");
}
