// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/edge/path_text.hpp"

#include <array>
#include <charconv>

namespace gatherwright::edge {

void PathText::begin(char letter) {
  if (!text_.empty()) text_ += ' ';
  text_ += letter;
}

void PathText::number(double value) {
  std::array<char, 32> figures{};
  const auto end = std::to_chars(figures.data(), figures.data() + figures.size(), value + 0.0);
  text_ += ' ';
  text_.append(figures.data(), end.ptr);
}

void PathText::command(char letter, std::initializer_list<Point> points) {
  begin(letter);
  for (const Point &point : points) {
    number(point.x);
    number(point.y);
  }
}

void PathText::arc(double radius_x, double radius_y, double rotation, bool clockwise, Point to) {
  begin('A');
  for (const double value : {radius_x, radius_y, rotation})
    number(value);
  text_ += clockwise ? " 0 1" : " 0 0";
  number(to.x);
  number(to.y);
}

} // namespace gatherwright::edge
