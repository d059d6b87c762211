// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"

#include <vector>

/// The part of a drawing that lies in a window.
namespace gatherwright::paper {

struct Window {
  Point corner;
  double width = 0;
  double height = 0;

  bool holds(Point point) const {
    return point.x >= corner.x && point.x <= corner.x + width && point.y >= corner.y && point.y <= corner.y + height;
  }
};

/// What lies in the window, with the window's corner as 0, 0. Lines are cut where they leave it, into as many as it
/// takes; a filled shape is there whole if its first point is. A text is there if its anchor is, and is moved sideways
/// to lie in the window. Groups are opened; one of nothing but texts is a line of words, which is there if its first
/// text's anchor is, and is moved as one.
std::vector<Item> clipped(const std::vector<Item> &items, const Window &window);

/// A drawing that is looked at through many windows: where its parts lie is found once. `items` must outlive it.
class Clippable {
public:
  explicit Clippable(const std::vector<Item> &items);

  std::vector<Item> within(const Window &window) const;

  struct Bounds {
    double left = 0;
    double top = 0;
    double right = 0;
    double bottom = 0;

    bool meets(const Window &window) const {
      return left <= window.corner.x + window.width && right >= window.corner.x &&
             top <= window.corner.y + window.height && bottom >= window.corner.y;
    }
  };

private:
  struct Part {
    const Item *item = nullptr; ///< a line, a text or a line of words
    Bounds bounds;
    std::vector<Bounds> runs; ///< of a long line's sides, so many in each
  };

  void take(const std::vector<Item> &items);

  std::vector<Part> parts_;
};

} // namespace gatherwright::paper
