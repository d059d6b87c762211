// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/picture/box_label.hpp"

#include "cli/drawing/type.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace gatherwright::paper {

namespace {

constexpr std::array sizes{3.2, 2.9, 2.5}; ///< of type, the smallest still read on paper and on a telephone
constexpr double leading = 1.22;
constexpr double beside = 0.7;      ///< between words and the lines of the box to their left and right
constexpr double above_words = 0.6; ///< and above and below them; of one line, less, since it seldom fills its height
constexpr double above_one = 0.3;

double width_of(const std::vector<std::string> &lines, double size) {
  double widest = 0;
  for (std::size_t i = 0; i < lines.size(); ++i)
    widest = std::max(widest, text_width(lines[i], size, i == 0));
  return widest;
}

double height_of(const std::vector<std::string> &lines, double size) {
  return (static_cast<double>(lines.size() - 1) * leading + 0.95) * size;
}

bool goes_into(const std::vector<std::string> &lines, double size, double width, double height) {
  return height_of(lines, size) <= height - 2 * (lines.size() == 1 ? above_one : above_words) &&
         width_of(lines, size) <= width - 2 * beside;
}

constexpr double cell = 8;

std::size_t cell_of(double at, std::size_t count) {
  const double index = std::floor(at / cell);
  return static_cast<std::size_t>(std::clamp(index, 0.0, static_cast<double>(count - 1)));
}

std::size_t cells_in(double length) {
  constexpr double most = 1000;
  return static_cast<std::size_t>(std::clamp(std::ceil(length / cell), 1.0, most));
}

} // namespace

std::optional<BoxLabel> label_within(const std::vector<std::vector<std::string>> &wordings, double width,
                                     double height) {
  for (const std::vector<std::string> &lines : wordings) {
    for (const double size : sizes)
      if (goes_into(lines, size, width, height)) return BoxLabel{lines, size, false};
    for (const double size : sizes)
      if (goes_into(lines, size, height, width)) return BoxLabel{lines, size, true};
  }
  return std::nullopt;
}

std::vector<Item> drawn_label(const BoxLabel &label, Point middle) {
  std::vector<Item> items;
  const double lines = static_cast<double>(label.lines.size());
  for (std::size_t i = 0; i < label.lines.size(); ++i) {
    const double base = (static_cast<double>(i) - (lines - 1) / 2) * leading * label.size + 0.36 * label.size;
    const Point at = label.turned ? Point{middle.x + base, middle.y} : Point{middle.x, middle.y + base};
    items.push_back({Text{.at = at,
                          .says = label.lines[i],
                          .size = label.size,
                          .bold = i == 0,
                          .anchor = Anchor::middle,
                          .turned = label.turned ? -90.0 : 0.0}});
  }
  return items;
}

Box extent_of(const BoxLabel &label, Point middle) {
  double wide = width_of(label.lines, label.size) / 2;
  double high = height_of(label.lines, label.size) / 2;
  if (label.turned) std::swap(wide, high);
  constexpr double clear = 0.4;
  wide += clear;
  high += clear;
  return {middle.x - wide, middle.y - high, middle.x + wide, middle.y + high};
}

Taken::Taken(double width, double height)
    : across_(cells_in(width)), down_(cells_in(height)), boxes_(across_ * down_) {}

Taken::Cells Taken::cells(const Box &box) const {
  return {cell_of(box.left, across_), cell_of(box.right, across_), cell_of(box.top, down_), cell_of(box.bottom, down_)};
}

bool Taken::leaves(const Box &box) const {
  const Cells in = cells(box);
  for (std::size_t y = in.top; y <= in.bottom; ++y)
    for (std::size_t x = in.left; x <= in.right; ++x)
      for (const Box &other : boxes_[y * across_ + x])
        if (other.meets(box)) return false;
  return true;
}

void Taken::take(const Box &box) {
  const Cells in = cells(box);
  for (std::size_t y = in.top; y <= in.bottom; ++y)
    for (std::size_t x = in.left; x <= in.right; ++x)
      boxes_[y * across_ + x].push_back(box);
}

} // namespace gatherwright::paper
