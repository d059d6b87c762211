// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "cli/drawing/type.hpp"
#include "tests/cli/picture/all_of.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <string_view>
#include <vector>

/// What is on a page, and whether it stays there.
namespace gatherwright::paper {

/// Corners of a line of text, with its ascenders.
inline std::vector<Point> corners(const Text &text) {
  const double wide = text_width(text.says, text.size, text.bold);
  const double left = text.anchor == Anchor::start ? 0 : text.anchor == Anchor::middle ? -wide / 2 : -wide;
  const double angle = text.turned * std::acos(-1.0) / 180;
  std::vector<Point> at;
  for (const double x : {left, left + wide})
    for (const double y : {0.2 * text.size, -0.75 * text.size})
      at.push_back({text.at.x + x * std::cos(angle) - y * std::sin(angle),
                    text.at.y + x * std::sin(angle) + y * std::cos(angle)});
  return at;
}

inline void check_within(const Page &page) {
  for (const Text &text : all<Text>(page))
    for (const Point &corner : corners(text)) {
      INFO(text.says << " at " << corner.x << ", " << corner.y << " of " << page.width << ", " << page.height);
      CHECK(corner.x >= -0.3);
      CHECK(corner.x <= page.width + 0.3);
      CHECK(corner.y >= -0.3);
      CHECK(corner.y <= page.height + 0.3);
    }
  for (const Line &line : all<Line>(page))
    for (const Point &point : line.points) {
      const bool inside = point.x >= -1.2 && point.x <= page.width + 1.2 && point.y >= 0 && point.y <= page.height;
      CHECK(inside);
    }
}

} // namespace gatherwright::paper
