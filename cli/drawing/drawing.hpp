// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

/// What stands on a page, as plain values, before it becomes PDF or SVG:
/// millimetres from the page's top left corner, y downwards. Whatever is drawn
/// is laid out once, in these values.
namespace gatherwright::paper {

struct Point {
  double x = 0;
  double y = 0;

  friend bool operator==(const Point &, const Point &) = default;
};

/// How dark, or what for. A picture must still be read where every tone but
/// `paper` is black.
enum class Tone { none, paper, pale, soft, ink, accent, alarm };

/// Points joined by straight lines; a curve is as many points as it takes.
struct Line {
  std::vector<Point> points;
  bool closed = false;
  double pen = 0.25; ///< width of the line; 0 draws none
  Tone tone = Tone::ink;
  bool dashed = false;
  Tone fill = Tone::none;
};

enum class Anchor { start, middle, end };

/// One line of text.
struct Text {
  Point at; ///< on the base line, where the anchor says
  std::string says;
  double size = 3.2; ///< of the em
  bool bold = false;
  Anchor anchor = Anchor::start;
  double turned = 0; ///< degrees clockwise about `at`
  Tone tone = Tone::ink;
};

/// What a group is to someone who cannot see the page: a structure element of a
/// PDF, a labelled group of an SVG. A figure is one thing with its label; what
/// is inside it is not read out.
enum class Role { none, section, title, heading, paragraph, figure, table, row, head_cell, cell, list, list_item };

/// What a group shows of something that has parts, counted from 0, so that a page can light up the same part wherever
/// it is shown.
struct PartShown {
  enum class Of { stretches, marks };
  Of of = Of::stretches;
  std::size_t number = 0;
};

struct Item;

struct Group {
  Role role = Role::none;
  std::string label; ///< for a screen reader; may be empty
  std::vector<Item> items;
  std::optional<PartShown> shows = std::nullopt;
};

struct Item {
  std::variant<Line, Text, Group> is;
};

struct Page {
  double width = 210;
  double height = 297;
  std::string label; ///< "page 2 of 3"
  std::vector<Item> items;
};

struct Document {
  std::string title;
  std::vector<Page> pages;
};

enum class PaperSize { a4, letter };

/// An empty page, upright.
Page page_of(PaperSize size);

Line segment(Point from, Point to, double pen, Tone tone = Tone::ink);
Line rectangle(Point corner, double width, double height, double pen, Tone fill = Tone::none);

/// Within 0.5 % of its radius of a true circle.
Line circle(Point centre, double radius, double pen, Tone fill = Tone::none);

/// What has been added from `first` on becomes one group, which shows a part.
void as_part(std::vector<Item> &items, std::size_t first, PartShown shown);

/// Everything moved by so much.
void move_by(std::vector<Item> &items, Point by);

/// Parallel strokes across a closed shape (also one with dents), rising to the
/// right on the page. `apart` > 0 is the distance from one to the next; they
/// lie where those of every other shape with the same distance do.
std::vector<Line> hatching(const std::vector<Point> &shape, double apart, double pen, Tone tone = Tone::soft);

} // namespace gatherwright::paper
