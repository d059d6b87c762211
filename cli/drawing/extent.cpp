// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/drawing/extent.hpp"

#include "cli/drawing/type.hpp"

#include <algorithm>
#include <limits>

namespace gatherwright::paper {

namespace {

class Extent {
public:
  void add(const std::vector<Item> &items) {
    for (const Item &item : items)
      std::visit([this](const auto &is) { add(is); }, item.is);
  }

  Box box() const { return box_; }

private:
  void add(Point at) { add(Box{at.x, at.y, at.x, at.y}); }
  void add(const Box &other) {
    box_ = {std::min(box_.left, other.left), std::min(box_.top, other.top), std::max(box_.right, other.right),
            std::max(box_.bottom, other.bottom)};
  }
  void add(const Line &line) {
    for (const Point &at : line.points)
      add(at);
  }
  void add(const Text &text) { add(extent_of(text)); }
  void add(const Group &group) { add(group.items); }

  static constexpr double most = std::numeric_limits<double>::max();
  Box box_{most, most, -most, -most};
};

/// Leaves of the line's way, from 0 to 1, what lies between two sides of a box. False where nothing is left.
bool leave(double at, double step, double low, double high, double &from, double &to) {
  if (step == 0) return at >= low && at <= high;
  const double a = (low - at) / step;
  const double b = (high - at) / step;
  from = std::max(from, std::min(a, b));
  to = std::min(to, std::max(a, b));
  return from <= to;
}

} // namespace

bool crosses(Point from, Point to, const Box &box) {
  double begin = 0;
  double end = 1;
  return leave(from.x, to.x - from.x, box.left, box.right, begin, end) &&
         leave(from.y, to.y - from.y, box.top, box.bottom, begin, end);
}

Box extent_of(const Text &text) {
  const double width = text_width(text.says, text.size, text.bold);
  const double left = text.anchor == Anchor::start    ? text.at.x
                      : text.anchor == Anchor::middle ? text.at.x - width / 2
                                                      : text.at.x - width;
  return {left, text.at.y - text.size, left + width, text.at.y + 1};
}

Box extent_of(const std::vector<Item> &items) {
  Extent extent;
  extent.add(items);
  return extent.box();
}

} // namespace gatherwright::paper
