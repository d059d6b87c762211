// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/edge/curve.hpp"

#include <algorithm>
#include <limits>
#include <numbers>

namespace gatherwright::edge {

namespace {

void add(Curve &curve, Piece::Form form, std::size_t arc = 0) {
  Piece piece;
  piece.point = static_cast<std::uint32_t>(curve.points.size() - 1);
  piece.arc = static_cast<std::uint32_t>(arc) & 0x3FFF'FFFF;
  piece.form = form;
  curve.pieces.push_back(piece);
}

} // namespace

Point first_point(const Curve &curve) {
  return curve.points.front();
}

Point last_point(const Curve &curve) {
  return curve.points.back();
}

void add_line(Curve &curve, Point to) {
  if (to == last_point(curve)) return;
  add(curve, Piece::Form::line);
  curve.points.push_back(to);
}

void add_cubic(Curve &curve, Point control, Point second_control, Point to) {
  const Point from = last_point(curve);
  if (control == from && second_control == from && to == from) return;
  add(curve, Piece::Form::cubic);
  curve.points.push_back(control);
  curve.points.push_back(second_control);
  curve.points.push_back(to);
}

void add_arc(Curve &curve, const EllipticArc &arc, Point to) {
  add(curve, Piece::Form::arc, curve.arcs.size());
  curve.arcs.push_back(arc);
  curve.points.push_back(to);
}

std::optional<EllipticArc> arc_between(Point from, Point to, double radius_x, double radius_y, double rotation,
                                       bool large, bool clockwise) {
  radius_x = std::abs(radius_x);
  radius_y = std::abs(radius_y);
  const double angle = std::fmod(rotation, 360) * std::numbers::pi / 180;
  const Point along = radius_x == radius_y ? Point{1, 0} : Point{std::cos(angle), std::sin(angle)};
  const Point half = 0.5 * (from - to);
  // Half the chord, seen where the ellipse is the unit circle.
  Point chord{dot(half, along) / radius_x, cross(along, half) / radius_y};
  double reach = norm(chord);
  if (!std::isfinite(reach)) return std::nullopt;
  // A chord that is a diameter but for rounding is one: the sweep hangs on its shortfall by a square root, which would
  // turn an error of 1e-16 into one of 1e-8. Its ends carry up to a few units in the last place of the coordinates.
  const double largest = std::max({std::abs(from.x), std::abs(from.y), std::abs(to.x), std::abs(to.y)});
  const double rounding = 8 * std::numeric_limits<double>::epsilon() * (1 + largest / norm(half));
  double grown = 1;
  if (reach > 1 - rounding) {
    grown = reach;
    chord = (1 / reach) * chord;
    reach = 1;
  }
  const double apart = std::sqrt(std::max(0.0, 1 - reach * reach)); // centre from chord
  const double side = large == clockwise ? 1 : -1;
  const Point centre = (side * apart / reach) * right_of(chord);
  const double short_sweep = 2 * std::asin(std::min(1.0, reach));
  EllipticArc arc;
  arc.major = (radius_x * grown) * along;
  arc.minor = (radius_y * grown) * right_of(along);
  arc.centre = 0.5 * (from + to) + centre.x * arc.major + centre.y * arc.minor;
  const Point out = chord - centre;
  arc.start = std::atan2(out.y, out.x);
  arc.sweep = (large ? 2 * std::numbers::pi - short_sweep : short_sweep) * (clockwise ? 1 : -1);
  arc.round = radius_x == radius_y;
  const double extent = norm(arc.major) + norm(arc.minor) + std::abs(arc.centre.x) + std::abs(arc.centre.y);
  if (!std::isfinite(extent)) return std::nullopt;
  return arc;
}

double enclosed_area(const Curve &curve) {
  const Point origin = first_point(curve);
  double twice = 0;
  for (const Piece &piece : curve.pieces) {
    const auto point = [&](std::size_t i) { return curve.points[piece.point + i] - origin; };
    switch (piece.form) {
    case Piece::Form::line:
      twice += cross(point(0), point(1));
      break;
    case Piece::Form::cubic:
      // Integral of P x P' with P in Bernstein form.
      twice += 0.6 * cross(point(0), point(1)) + 0.3 * cross(point(0), point(2)) + 0.1 * cross(point(0), point(3)) +
               0.3 * cross(point(1), point(2)) + 0.3 * cross(point(1), point(3)) + 0.6 * cross(point(2), point(3));
      break;
    case Piece::Form::arc: {
      const EllipticArc &arc = curve.arcs[piece.arc];
      twice += cross(arc.centre - origin, point(1) - point(0)) + cross(arc.major, arc.minor) * arc.sweep;
      break;
    }
    }
  }
  return 0.5 * twice; // the closing line starts or ends at the origin and adds nothing
}

double largest_coordinate(const Curve &curve) {
  double largest = 0;
  for (const Point &point : curve.points)
    largest = std::max({largest, std::abs(point.x), std::abs(point.y)});
  return largest;
}

} // namespace gatherwright::edge
