// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/drawing/drawing.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <numbers>
#include <utility>

namespace gatherwright::paper {

namespace {

constexpr double inch = 25.4;

/// Strokes of one hatching at most: beyond it they lie closer than anyone could
/// see.
constexpr double most_strokes = 20000;

/// Where a line x + y = sum crosses the sides of a shape, by x, rising.
std::vector<double> crossings(const std::vector<Point> &shape, double sum) {
  std::vector<double> at;
  for (std::size_t i = 0; i < shape.size(); ++i) {
    const Point &a = shape[i];
    const Point &b = shape[(i + 1) % shape.size()];
    const double before = a.x + a.y - sum;
    const double after = b.x + b.y - sum;
    // A corner on the line belongs to the side above it alone, so that
    // crossings come in pairs.
    if ((before < 0) == (after < 0)) continue;
    at.push_back(a.x + (b.x - a.x) * before / (before - after));
  }
  std::sort(at.begin(), at.end());
  return at;
}

} // namespace

Page page_of(PaperSize size) {
  Page page;
  if (size == PaperSize::letter) {
    page.width = 8.5 * inch;
    page.height = 11 * inch;
  }
  return page;
}

void as_part(std::vector<Item> &items, std::size_t first, PartShown shown) {
  if (first == items.size()) return;
  const auto begin = items.begin() + static_cast<std::ptrdiff_t>(first);
  Group part{.role = Role::none, .label = "", .items = {}, .shows = shown};
  part.items.assign(std::make_move_iterator(begin), std::make_move_iterator(items.end()));
  items.erase(begin, items.end());
  items.push_back({std::move(part)});
}

Line segment(Point from, Point to, double pen, Tone tone) {
  return {.points = {from, to}, .pen = pen, .tone = tone};
}

Line rectangle(Point corner, double width, double height, double pen, Tone fill) {
  return {.points = {corner,
                     {corner.x + width, corner.y},
                     {corner.x + width, corner.y + height},
                     {corner.x, corner.y + height}},
          .closed = true,
          .pen = pen,
          .fill = fill};
}

Line circle(Point centre, double radius, double pen, Tone fill) {
  constexpr int corners = 32;
  Line line{.points = {}, .closed = true, .pen = pen, .fill = fill};
  for (int i = 0; i < corners; ++i) {
    const double angle = 2 * std::numbers::pi * i / corners;
    line.points.push_back({centre.x + radius * std::cos(angle), centre.y + radius * std::sin(angle)});
  }
  return line;
}

std::vector<Line> hatching(const std::vector<Point> &shape, double apart, double pen, Tone tone) {
  if (shape.size() < 3 || !(apart > 0)) return {};
  const auto sum = [](const Point &point) { return point.x + point.y; };
  const auto [low, high] =
      std::minmax_element(shape.begin(), shape.end(), [&](const Point &a, const Point &b) { return sum(a) < sum(b); });
  const double step = apart * std::numbers::sqrt2;
  const double first = std::ceil(sum(*low) / step);
  const double last = std::min(std::floor(sum(*high) / step), first + most_strokes);
  std::vector<Line> strokes;
  for (int n = 0; first + n <= last; ++n) {
    const double level = (first + n) * step;
    const std::vector<double> at = crossings(shape, level);
    for (std::size_t i = 0; i + 1 < at.size(); i += 2)
      strokes.push_back(segment({at[i], level - at[i]}, {at[i + 1], level - at[i + 1]}, pen, tone));
  }
  return strokes;
}

namespace {

void moved(Line &line, Point by) {
  for (Point &point : line.points)
    point = {point.x + by.x, point.y + by.y};
}

void moved(Text &text, Point by) {
  text.at = {text.at.x + by.x, text.at.y + by.y};
}

void moved(Group &group, Point by) {
  move_by(group.items, by);
}

} // namespace

void move_by(std::vector<Item> &items, Point by) {
  for (Item &item : items)
    std::visit([by](auto &is) { moved(is, by); }, item.is);
}

} // namespace gatherwright::paper
