// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "paper/drawing.hpp"

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
/// to lie in the window. Groups are opened.
std::vector<Item> clipped(const std::vector<Item> &items, const Window &window);

} // namespace gatherwright::paper
