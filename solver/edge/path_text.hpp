// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/edge/plane.hpp"

#include <initializer_list>
#include <string>

namespace gatherwright::edge {

/// Path data as it is written: each command with its numbers, each number in the fewest figures that give it back.
class PathText {
public:
  void command(char letter, std::initializer_list<Point> points);
  void arc(double radius_x, double radius_y, double rotation, bool clockwise, Point to); ///< at most half a turn
  void close() { text_ += " Z"; }
  std::string take() { return std::move(text_); }

private:
  void begin(char letter);
  void number(double value);

  std::string text_;
};

} // namespace gatherwright::edge
