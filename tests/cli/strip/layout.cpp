// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/drawing/clip.hpp"
#include "cli/drawing/drawing.hpp"
#include "cli/drawing/type.hpp"
#include "cli/press/pdf.hpp"
#include "cli/strip/flags.hpp"
#include "cli/strip/parts.hpp"
#include "cli/strip/strip_drawing.hpp"
#include "cli/strip/tiles.hpp"

#include "tests/cli/press/printed.hpp"

#include <catch2/catch.hpp>
#include <pugixml.hpp>

#include <charconv>
#include <cmath>
#include <fstream>
#include <numbers>
#include <random>

using namespace gatherwright::paper;

namespace {

double length(const Line &line) {
  double sum = 0;
  for (std::size_t i = 1; i < line.points.size(); ++i)
    sum += std::hypot(line.points[i].x - line.points[i - 1].x, line.points[i].y - line.points[i - 1].y);
  return sum;
}

double figure(std::string_view text) {
  double value = NAN;
  std::from_chars(text.data(), text.data() + text.size(), value);
  return value;
}

} // namespace

TEST_CASE("hatching covers a shape: its strokes' length times their distance is the area") {
  // A square, and an L with a dent.
  const std::vector<Point> square{{10, 10}, {50, 10}, {50, 50}, {10, 50}};
  const std::vector<Point> dented{{0, 0}, {60, 0}, {60, 20}, {20, 20}, {20, 60}, {0, 60}};
  for (const auto &[shape, area] : {std::pair(square, 1600.0), std::pair(dented, 2000.0)}) {
    constexpr double apart = 0.1;
    double sum = 0;
    for (const Line &stroke : hatching(shape, apart, 0.1)) {
      sum += length(stroke) * apart;
      CHECK(stroke.points[0].y >= stroke.points[1].y); // rises to the right
    }
    CHECK(sum == Approx(area).epsilon(0.005));
  }
  CHECK(hatching({{0, 0}, {1, 1}}, 1, 0.1).empty());
  CHECK(hatching(square, 0, 0.1).empty());
}

TEST_CASE("a circle of corners keeps within half a hundredth of its radius") {
  const Line ring = circle({5, 5}, 2, 0.2);
  for (std::size_t i = 0; i < ring.points.size(); ++i) {
    const Point &a = ring.points[i];
    const Point &b = ring.points[(i + 1) % ring.points.size()];
    CHECK(std::fabs(std::hypot((a.x + b.x) / 2 - 5, (a.y + b.y) / 2 - 5) - 2) < 0.005 * 2);
  }
}

TEST_CASE("texts are as wide in a PDF as they are reckoned, and no wider beyond ASCII") {
  struct Case {
    std::string says;
    bool bold;
    double least; ///< share of what is reckoned
  };
  const std::vector<Case> cases{{"Cut-out-each-strip,WAVY;fiffi(100%)", false, 0.97},
                                {"Cut-out-each-strip,WAVY;fiffi(100%)", true, 0.97},
                                {"Πλισέςφούσταςμεζαγγάρια", false, 0.7},
                                {"Рубашканосильщикасоборками", true, 0.7},
                                {"Überärmelmanchettenfältchen", false, 0.7}};
  Document document{"widths", {page_of(PaperSize::a4)}};
  for (std::size_t i = 0; i < cases.size(); ++i)
    document.pages[0].items.push_back(
        {Text{{20, 20.0 + 20.0 * static_cast<double>(i)}, cases[i].says, 5, cases[i].bold}});
  const PdfOutcome bytes = pdf(document);
  REQUIRE(bytes);
  printed::Folder folder;
  std::ofstream(folder.file("widths.pdf"), std::ios::binary) << *bytes;
  pugi::xml_document boxes;
  const std::string xml = printed::output_of("pdftotext -bbox " + folder.file("widths.pdf") + " -");
  REQUIRE(boxes.load_buffer(xml.data(), xml.size()));
  const auto words = boxes.select_nodes("//*[local-name()='word']");
  REQUIRE(words.size() == cases.size());
  for (std::size_t i = 0; i < cases.size(); ++i) {
    const auto box = words[i].node();
    CHECK(std::string(box.text().get()) == cases[i].says);
    const double printed_mm =
        (figure(box.attribute("xMax").value()) - figure(box.attribute("xMin").value())) * 25.4 / 72;
    const double reckoned = text_width(cases[i].says, 5, cases[i].bold);
    CHECK(printed_mm <= reckoned + 0.01);
    CHECK(printed_mm >= cases[i].least * reckoned);
  }
}

TEST_CASE("broken text keeps all its words within the width, and what fits is left as it is") {
  const std::string text = "Count the pins out: fifty-five go in, Unaussprechlichlangeswort and all";
  for (const double width : {12.0, 20.0, 40.0, 400.0}) {
    std::string joined;
    for (const std::string &line : broken(text, width, 4)) {
      CHECK(text_width(line, 4) <= width);
      joined += line;
    }
    std::string without_spaces = text;
    std::erase(without_spaces, ' ');
    std::erase(joined, ' ');
    CHECK(joined == without_spaces);
  }
  CHECK(broken("", 10, 4) == std::vector<std::string>{""});
  CHECK(broken("ab", 0.1, 4) == std::vector<std::string>{"a", "b"});
  CHECK(fitted("short", 100, 4) == "short");
  CHECK(fitted("much too long for it", 20, 4).ends_with("…"));
  CHECK(text_width(fitted("much too long for it", 20, 4), 4) <= 20);
}

TEST_CASE("no flag lies on another, and on another's line only where there is no other way") {
  std::mt19937 random(7);
  for (int round = 0; round < 300; ++round) {
    std::vector<Flag> flags;
    double at = 0;
    std::uniform_real_distribution<double> gap(0, round % 3 == 0 ? 4 : 30);
    for (int i = 0; i < 20; ++i) {
      const double width = std::uniform_real_distribution<double>(3, 30)(random);
      flags.push_back({at, width, std::min(width, 4.0)});
      at += gap(random);
    }
    const double end = at + 2;
    const auto found = places(flags, end, 6);
    const auto box = [&](std::size_t i) {
      const double width = found[i].brief ? flags[i].brief : flags[i].width;
      const double left = found[i].to_left ? flags[i].at - width : flags[i].at;
      return std::pair(left, left + width);
    };
    for (std::size_t i = 0; i < flags.size(); ++i) {
      for (std::size_t j = 0; j < flags.size(); ++j) {
        if (i == j || found[i].row < 0 || found[j].row < 0) continue;
        const auto [left, right] = box(i);
        if (found[i].row == found[j].row) CHECK((box(j).first >= right || box(j).second <= left));
        const bool runs_through = found[j].row > found[i].row && flags[j].at > left && flags[j].at < right;
        if (runs_through) CHECK((found[i].crossed || found[j].crossed));
      }
    }
  }
  // Wide apart, all stand in the top row.
  const std::vector<Flag> apart{{0, 10, 4}, {20, 10, 4}, {40, 10, 4}};
  for (const Place &place : places(apart, 60, 6))
    CHECK(place.row == 0);
}

TEST_CASE("parts cover their strip, share what they overlap by and fit the page") {
  std::mt19937 random(11);
  for (int round = 0; round < 300; ++round) {
    Strip strip;
    strip.length = std::uniform_real_distribution<double>(1, 4000)(random);
    strip.before = round % 2 * 10.0;
    strip.after = round % 3 * 7.0;
    const int marks = std::uniform_int_distribution<int>(2, 40)(random);
    for (int i = 0; i < marks; ++i) {
      const double jitter = i % 2 == 0 || round % 5 == 0 ? 0 : 0.01;
      strip.marks.push_back(
          {strip.length * i / (marks - 1) + (i + 1 < marks ? jitter : 0), i, "", "", i == 0 || i + 1 == marks});
    }
    const std::vector<Part> parts = parts_of(strip, 277);
    REQUIRE(!parts.empty());
    double reached = -strip.before;
    for (std::size_t i = 0; i < parts.size(); ++i) {
      const Part &part = parts[i];
      CHECK(part.to - part.from <= 277 + 1e-9);
      const bool first_of_group = part.times > 1 && !part.joins_before;
      CHECK(part.from == Approx(part.joins_before ? reached - overlap : reached).margin(1e-6));
      reached = part.to;
      if (first_of_group) REQUIRE(i + part.group_parts <= parts.size());
      if (part.times > 1 && !part.joins_after) {
        const double once = part.to - parts[i + 1 - part.group_parts].from;
        reached += (part.times - 1) * once;
      }
    }
    CHECK(reached == Approx(strip.length + strip.after).margin(1e-6));
  }
  Strip endless;
  endless.length = 1e9;
  CHECK(parts_of(endless, 277).empty());
}

TEST_CASE("what is clipped to the windows of a tiling is all of the line, once") {
  std::mt19937 random(5);
  std::uniform_real_distribution<double> place(0, 100);
  for (int round = 0; round < 200; ++round) {
    Line line;
    for (int i = 0; i < 12; ++i)
      line.points.push_back({place(random), place(random)});
    line.closed = round % 2 == 0;
    double whole = length(line);
    if (line.closed)
      whole += std::hypot(line.points.front().x - line.points.back().x, line.points.front().y - line.points.back().y);
    double pieces = 0;
    for (int x = 0; x < 4; ++x) {
      for (int y = 0; y < 2; ++y) {
        for (const Item &item : clipped({{line}}, {{25.0 * x, 50.0 * y}, 25, 50})) {
          const Line &piece = std::get<Line>(item.is);
          pieces += length(piece);
          for (const Point &point : piece.points) {
            CHECK((point.x >= -1e-9 && point.x <= 25 + 1e-9));
            CHECK((point.y >= -1e-9 && point.y <= 50 + 1e-9));
          }
        }
      }
    }
    CHECK(pieces == Approx(whole));
  }
}

TEST_CASE("a line of words at the side of a window is moved as one") {
  const Text number{{92, 20}, "5", 3.8, true};
  const Text name{{92 + text_width("5", 3.8, true) + 1.2, 20}, "shoulder", 3.4};
  const std::vector<Item> drawn{{Group{Role::none, "", {{number}, {name}}}}};
  for (const Window &window : {Window{{0, 0}, 100, 50}, Window{{90, 0}, 100, 50}}) {
    const std::vector<Item> shown = clipped(drawn, window);
    REQUIRE(shown.size() == 2);
    const Text &first = std::get<Text>(shown[0].is);
    const Text &second = std::get<Text>(shown[1].is);
    CHECK(second.at.x - first.at.x == Approx(name.at.x - number.at.x));
    CHECK(first.at.x >= -1e-9);
    CHECK(second.at.x + text_width(second.says, second.size) <= window.width + 1e-9);
  }
  CHECK(clipped(drawn, {{95, 0}, 100, 50}).empty()); // the number lies in another
}

TEST_CASE("what is above a strip is there whole, within the page and line below line") {
  const std::string title = "Long edge: cap, about 49.2 cm; the first piece of the pair; allowances at its ends 1.5 cm "
                            "and 2.5 cm";
  const std::string after = "; part 1 of 4, row 1 and column 1; lay lines with the same letter on each other";
  for (const double width : {120.0, 185.0, 259.0, 277.0}) {
    const Caption caption = caption_of(title, after, width);
    std::string said;
    double base = -1;
    double beyond = 0;
    for (const Item &item : caption.words.items) {
      const Text &text = std::get<Text>(item.is);
      const double right =
          text.at.x + text_width(text.says.substr(0, text.says.find_last_not_of(' ') + 1), text.size, text.bold);
      CHECK(right <= width + 1e-9);
      CHECK((text.at.y > base + 4 || text.at.x > beyond)); // on a line of its own, or clear of what is before it
      base = text.at.y;
      beyond = right;
      said += text.says;
    }
    CHECK(base + 1 < caption.height);
    CHECK((said == title + after || said == title + " " + after.substr(2)));
  }
  const Caption endless = caption_of(std::string(5000, 'w'), "; part 1 of 2", 185);
  CHECK(endless.height < 30);
}

TEST_CASE("the line where tiles are joined stops at words that lie across it, and its letter keeps off them") {
  EdgePicture picture;
  picture.width = 180;
  picture.height = 60;
  picture.items.push_back({segment({4, 40}, {176, 40}, 0.4)});
  const Text words{{80, 30}, "a long name of a mark", 3.4};
  picture.items.push_back({words});
  const Tiling tiling = tiled(picture, 100, 100);
  REQUIRE(tiling.tiles.size() == 2);
  for (const Tile &tile : tiling.tiles) {
    std::vector<Text> texts;
    for (const Item &item : tile.items)
      if (const auto *text = std::get_if<Text>(&item.is)) texts.push_back(*text);
    const Text *name = nullptr;
    for (const Text &text : texts)
      if (text.says == words.says) name = &text;
    for (const Text &letter : texts) {
      if (name == nullptr || &letter == name) continue;
      CHECK((letter.at.y - 4.5 > name->at.y || letter.at.y + 2.5 < name->at.y - 0.7 * name->size));
    }
    double drawn = 0;
    for (const Item &item : tile.items) {
      const auto *line = std::get_if<Line>(&item.is);
      if (line == nullptr || !line->dashed) continue;
      drawn += length(*line);
      if (name == nullptr) continue;
      const double x = line->points[0].x;
      const bool across = x > name->at.x && x < name->at.x + text_width(name->says, name->size);
      const double top = std::min(line->points[0].y, line->points[1].y);
      const double bottom = std::max(line->points[0].y, line->points[1].y);
      CHECK_FALSE((across && top < name->at.y && bottom > name->at.y - 0.7 * name->size));
    }
    CHECK(drawn > tiling.height - 8);
  }
}
