// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/mapped_path.hpp"

#include "solver/edge/path.hpp"
#include "solver/edge/path_text.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace gatherwright {

namespace {

using edge::Curve;
using edge::Point;

/// Sine of the angle from where the map takes x to where it takes y; not a number where it leaves nothing of either.
double opening(const AffineMap &map) {
  const double across = std::hypot(map.a, map.b), along = std::hypot(map.c, map.d);
  return (map.a / across) * (map.d / along) - (map.b / across) * (map.c / along);
}

Point direction(const AffineMap &map, Point of) {
  return {map.a * of.x + map.c * of.y, map.b * of.x + map.d * of.y};
}

Point place(const AffineMap &map, Point of) {
  return direction(map, of) + Point{map.e, map.f};
}

/// Half-axes of an ellipse, and the angle of the first to the x axis in degrees.
struct Axes {
  double first = 0;
  double second = 0;
  double rotation = 0;
};

/// Of the ellipse that has these conjugate half-diameters, by the turn of its parameter that makes them perpendicular.
Axes axes_of(Point p, Point q) {
  const double turn = 0.5 * std::atan2(2 * edge::dot(p, q), edge::dot(p, p) - edge::dot(q, q));
  const Point axis = std::cos(turn) * p + std::sin(turn) * q;
  Axes axes{edge::norm(axis), 0, std::atan2(axis.y, axis.x) * 180 / std::numbers::pi};
  axes.second = std::abs(edge::cross(p, q)) / axes.first;
  // A circle but for rounding is one.
  if (std::abs(axes.first - axes.second) <= 1e-14 * axes.first) axes = {axes.first, axes.first, 0};
  return axes;
}

/// In parts of a quarter turn at most, whose centre their ends settle well.
void write_arc(edge::PathText &text, const edge::EllipticArc &arc, const AffineMap &map, Point to) {
  constexpr double quarter = std::numbers::pi / 2;
  const Axes axes = axes_of(direction(map, arc.major), direction(map, arc.minor));
  const bool clockwise = (arc.sweep > 0) == (opening(map) > 0);
  const int parts = std::max(1, static_cast<int>(std::ceil(std::abs(arc.sweep) / quarter - 1e-9)));
  for (int part = 1; part <= parts; ++part) {
    const double angle = arc.start + arc.sweep * part / parts;
    const Point on = arc.centre + std::cos(angle) * arc.major + std::sin(angle) * arc.minor;
    text.arc(axes.first, axes.second, axes.rotation, clockwise, place(map, part == parts ? to : on));
  }
}

std::string written(const Curve &curve, const AffineMap &map) {
  edge::PathText text;
  text.command('M', {place(map, edge::first_point(curve))});
  for (const edge::Piece &piece : curve.pieces) {
    const auto point = [&](std::size_t i) { return place(map, curve.points[piece.point + i]); };
    switch (piece.form) {
    case edge::Piece::Form::line:
      text.command('L', {point(1)});
      break;
    case edge::Piece::Form::cubic:
      text.command('C', {point(1), point(2), point(3)});
      break;
    case edge::Piece::Form::arc:
      write_arc(text, curve.arcs[piece.arc], map, curve.points[piece.point + 1]);
      break;
    }
  }
  if (curve.closed) text.close();
  return text.take();
}

} // namespace

AffineMap operator*(const AffineMap &outer, const AffineMap &inner) {
  return {outer.a * inner.a + outer.c * inner.b,           outer.b * inner.a + outer.d * inner.b,
          outer.a * inner.c + outer.c * inner.d,           outer.b * inner.c + outer.d * inner.d,
          outer.a * inner.e + outer.c * inner.f + outer.e, outer.b * inner.e + outer.d * inner.f + outer.f};
}

Outcome<std::string> mapped_path(std::string_view path, const AffineMap &map) {
  const double across = std::hypot(map.a, map.b), along = std::hypot(map.c, map.d);
  if (!std::isfinite(across + along + std::abs(map.e) + std::abs(map.f)))
    return Fault{"its transforms come to no numbers", "write smaller ones"};
  if (!(std::abs(opening(map)) > 1e-12))
    return Fault{"its transforms leave no area of anything", "a scale of 0, or a skew of 90 degrees, must go"};
  const edge::PathOutcome curve = edge::read_path(path);
  if (!curve) return curve.fault().fault;
  // Controls and, of an arc, everything that its ellipse reaches.
  double reach = edge::largest_coordinate(*curve);
  for (const edge::EllipticArc &arc : curve->arcs)
    reach = std::max(reach,
                     std::abs(arc.centre.x) + std::abs(arc.centre.y) + edge::norm(arc.major) + edge::norm(arc.minor));
  if (!((across + along) * reach + std::abs(map.e) + std::abs(map.f) <= edge::farthest))
    return Fault{"it reaches further than 10 km", "draw it at the size it has"};
  return written(*curve, map);
}

} // namespace gatherwright
