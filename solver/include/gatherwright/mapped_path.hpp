// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/outcome.hpp"

#include <string>
#include <string_view>

namespace gatherwright {

/// (x, y) goes to (a x + c y + e, b x + d y + f), as in SVG's matrix(a b c d e f).
struct AffineMap {
  double a = 1;
  double b = 0;
  double c = 0;
  double d = 1;
  double e = 0;
  double f = 0;

  /// `inner` first, then `outer`.
  friend AffineMap operator*(const AffineMap &outer, const AffineMap &inner);
  friend bool operator==(const AffineMap &, const AffineMap &) = default;
};

/// SVG path data of what a map makes of the line that `path` draws, in absolute commands: lines, cubics, and arcs of an
/// ellipse, which a map makes of arcs, in parts of at most a quarter turn.
///   1. Mapped path data draws what the map makes of each point of the line.
/// Faults: what is wrong with the path, as of a drawn edge, with the byte named; a map that makes a line or a point of
/// everything; one that is not finite or leads beyond what path data may hold.
Outcome<std::string> mapped_path(std::string_view path, const AffineMap &map);

} // namespace gatherwright
