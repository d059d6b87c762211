// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"

#include <vector>

/// How much of a page things take, so that one can be set clear of another.
namespace gatherwright::paper {

struct Box {
  double left = 0;
  double top = 0;
  double right = 0;
  double bottom = 0;

  bool meets(const Box &other) const {
    return left < other.right && other.left < right && top < other.bottom && other.top < bottom;
  }
};

/// Whether any of the straight line between two points lies in the box.
bool crosses(Point from, Point to, const Box &box);

/// The room of a line of text that is not turned, its accents and descenders included.
Box extent_of(const Text &text);

/// The smallest box round all that is drawn, pens left out of account. Texts are taken as not turned. At least one
/// item.
Box extent_of(const std::vector<Item> &items);

} // namespace gatherwright::paper
