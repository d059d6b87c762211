// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/edge/plane.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace gatherwright::edge {

/// An arc of an ellipse: centre + cos(angle) * major + sin(angle) * minor, the angle running from `start` over `sweep`.
/// `major` and `minor` are perpendicular half-axes, `minor` to the right of `major`; either may be the longer.
struct EllipticArc {
  Point centre;
  Point major;
  Point minor;
  double start = 0;
  double sweep = 0;   ///< radians, to the right (clockwise on the page) above 0
  bool round = false; ///< of a circle
};

/// One piece of a curve. Its first point, controls and last point stand one after another in `Curve::points`, and its
/// last point is the first of the next piece: line 2 points, cubic 4, arc 2.
struct Piece {
  enum class Form : std::uint8_t { line, cubic, arc };
  std::uint32_t point = 0;    ///< index of its first point
  std::uint32_t arc : 30 = 0; ///< arcs only: index in `Curve::arcs`
  Form form : 2 = Form::line;
};

/// One connected run of lines, cubics (quadratics are raised to cubics) and elliptic arcs, none of them of no extent.
struct Curve {
  std::vector<Point> points;
  std::vector<Piece> pieces;
  std::vector<EllipticArc> arcs;
  bool closed = false; ///< the last point is the first, and the seam between them is a joint like any other
};

Point first_point(const Curve &curve);
Point last_point(const Curve &curve);

/// These draw on from the curve's last point; `points` must hold at least the start. A piece of no extent is left out.
void add_line(Curve &curve, Point to);
void add_cubic(Curve &curve, Point control, Point second_control, Point to);
void add_arc(Curve &curve, const EllipticArc &arc, Point to);

/// The arc from `from` to `to`, neither equal to the other nor of no radius, by the implementation notes of SVG
/// (appendix "Elliptical arc implementation notes"): radii are taken without sign and enlarged alike where they are too
/// small. Nothing where the arc so enlarged is not finite. `rotation` in degrees.
std::optional<EllipticArc> arc_between(Point from, Point to, double radius_x, double radius_y, double rotation,
                                       bool large, bool clockwise);

/// The area a closed curve encloses, above 0 where it runs clockwise on the page; an open one is closed by a straight
/// line.
double enclosed_area(const Curve &curve);

/// The largest absolute value of any coordinate of its points.
double largest_coordinate(const Curve &curve);

} // namespace gatherwright::edge
