// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/edge/span.hpp"

#include "solver/edge/quadrature.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace gatherwright::edge {

namespace {

/// A speed this far below the largest control vector of the velocity counts as none: the curve has a cusp there, or a
/// control point lies on an end. Lengths move by at most a third of it, relatively.
constexpr double standstill = 1e-11;

/// Below this the square of a speed has lost digits, and with them the direction, to underflow: next to an end where
/// the speed is 0 the velocity is taken to be 0 too.
constexpr double lost_square = 1e-290;

using Velocities = std::array<Point, 3>;

/// Of the cubic with these four points.
Point point_of(const Point *p, double t) {
  if (t == 0) return p[0];
  const double s = 1 - t;
  const Point first = s * p[0] + t * p[1], middle = s * p[1] + t * p[2], last = s * p[2] + t * p[3];
  return s * (s * first + t * middle) + t * (s * middle + t * last);
}

Velocities velocities_of(const Curve &curve, const Piece &piece) {
  const Point *p = &curve.points[piece.point];
  return {3 * (p[1] - p[0]), 3 * (p[2] - p[1]), 3 * (p[3] - p[2])};
}

/// The polar form of a quadratic in Bernstein form.
Point blossom(const Velocities &v, double s, double t) {
  return ((1 - s) * (1 - t)) * v[0] + (s * (1 - t) + t * (1 - s)) * v[1] + (s * t) * v[2];
}

double largest_speed_squared(const Velocities &v) {
  return std::max({dot(v[0], v[0]), dot(v[1], v[1]), dot(v[2], v[2])});
}

/// An end slower than `none` (squared) stands still.
void settle_ends(Velocities &v, double none) {
  if (dot(v[0], v[0]) <= none) v[0] = {};
  if (dot(v[2], v[2]) <= none) v[2] = {};
}

Velocities between(const Velocities &v, double from, double to) {
  Velocities part = v;
  if (from != 0 || to != 1) part = {blossom(v, from, from), blossom(v, from, to), blossom(v, to, to)};
  settle_ends(part, standstill * standstill * largest_speed_squared(v));
  if (from != 0 || to != 1) {
    for (Point &velocity : part)
      velocity = (to - from) * velocity;
  }
  return part;
}

Point blend(const Velocities &v, double t) {
  const double s = 1 - t;
  return (s * s) * v[0] + (2 * s * t) * v[1] + (t * t) * v[2];
}

/// Whether the tangent stays within a right angle: no two control vectors of the velocity are more than that apart.
bool turns_little(const Velocities &v) {
  return dot(v[0], v[1]) >= 0 && dot(v[1], v[2]) >= 0 && dot(v[0], v[2]) >= 0;
}

/// Weights of the three control vectors at each node.
template <std::size_t count> struct NodeWeights {
  std::array<double, count> first{}, middle{}, last{};
  constexpr explicit NodeWeights(const Gauss<count> &rule) {
    for (std::size_t i = 0; i < count; ++i) {
      const double t = rule.node[i];
      first[i] = (1 - t) * (1 - t);
      middle[i] = 2 * t * (1 - t);
      last[i] = t * t;
    }
  }
};
constexpr NodeWeights gauss_weights(gauss);
constexpr NodeWeights short_weights(short_gauss);

template <std::size_t count> std::array<double, count> speeds(const NodeWeights<count> &weights, const Velocities &v) {
  std::array<double, count> speed;
  for (std::size_t i = 0; i < count; ++i) {
    const double x = weights.first[i] * v[0].x + weights.middle[i] * v[1].x + weights.last[i] * v[2].x;
    const double y = weights.first[i] * v[0].y + weights.middle[i] * v[1].y + weights.last[i] * v[2].y;
    speed[i] = std::sqrt(x * x + y * y);
  }
  return speed;
}

double cubic_length(const Velocities &v) {
  return sum(gauss, speeds(gauss_weights, v));
}

/// Speed of an ellipse in its angle; its half-axes are perpendicular.
double arc_speed(Point major, Point minor, double angle) {
  const double s = std::sin(angle);
  return std::sqrt(dot(major, major) * s * s + dot(minor, minor) * (1 - s * s));
}

template <std::size_t count>
double arc_length(const Gauss<count> &rule, Point major, Point minor, double start, double sweep) {
  std::array<double, count> speed{};
  for (std::size_t i = 0; i < count; ++i)
    speed[i] = arc_speed(major, minor, start + rule.node[i] * sweep);
  return sum(rule, speed) * std::abs(sweep);
}

/// Points taken as complex numbers x + iy.
Point times(Point a, Point b) {
  return {a.x * b.x - a.y * b.y, a.x * b.y + a.y * b.x};
}
Point over(Point a, Point b) {
  return (1 / dot(b, b)) * Point{dot(b, a), cross(b, a)};
}
Point root_of(Point a) {
  const double size = norm(a);
  return {std::sqrt(std::max(0.0, 0.5 * (size + a.x))),
          std::copysign(std::sqrt(std::max(0.0, 0.5 * (size - a.x))), a.y)};
}

/// Where a cubic's velocity, as a complex number, is 0: at its two roots, and nowhere else, is the speed anything but
/// smooth. Each has the parameter for its real part. A cusp is a real root; near one the imaginary part is small.
std::array<Point, 2> standing(const Velocities &v) {
  const Point square = v[0] - 2 * v[1] + v[2];
  const Point half = v[0] - v[1];
  Point root = root_of(times(v[1], v[1]) - times(v[0], v[2]));
  if (dot(root, half) < 0) root = -1.0 * root;
  const Point sum = half + root;
  constexpr double far = 1e9; // of no concern, as where the velocity is linear
  const auto quotient = [&](Point a, Point b) {
    return dot(a, a) < far * far * dot(b, b) ? over(a, b) : Point{far, far};
  };
  return {quotient(sum, square), quotient(v[0], sum)};
}

/// Roots in (0, 1) of a quadratic in Bernstein form.
Places roots_between(const std::array<double, 3> &c) {
  const double square = c[0] - 2 * c[1] + c[2];
  const double discriminant = c[1] * c[1] - c[0] * c[2];
  if (discriminant < 0) return {};
  const double half = c[0] - c[1];
  const double stable = half + std::copysign(std::sqrt(discriminant), half);
  std::array<double, 2> roots{square != 0 ? stable / square : -1, stable != 0 ? c[0] / stable : -1};
  std::sort(roots.begin(), roots.end());
  Places places;
  for (const double root : roots) {
    if (root > 0 && root < 1) places.at[places.count++] = root;
  }
  return places;
}

class Measurer {
public:
  explicit Measurer(const Curve &curve) : curve_(curve) { spans_.reserve(curve.pieces.size()); }

  std::vector<Span> run() {
    for (piece_ = 0; piece_ < curve_.pieces.size(); ++piece_) {
      const Piece &piece = curve_.pieces[piece_];
      switch (piece.form) {
      case Piece::Form::line:
        add(0, 1, norm(curve_.points[piece.point + 1] - curve_.points[piece.point]));
        break;
      case Piece::Form::cubic:
        cubic(velocities_of(curve_, piece));
        break;
      case Piece::Form::arc:
        if (const EllipticArc &arc = curve_.arcs[piece.arc]; arc.round) {
          circle(arc);
        } else {
          ellipse(arc);
        }
        break;
      }
    }
    return std::move(spans_);
  }

private:
  struct Part {
    double from, to;
    int depth;
  };
  // Halving a parameter 45 times brings the control vectors of any cubic without cusps inside as near to each other as
  // `standstill` can tell.
  static constexpr int deepest = 45;

  /// How near to a point without speed a root of it is its own. Where the other lies as near, no more than the square
  /// of this is at stake.
  static constexpr double at_cusp = 1e-6;

  /// A part this short, to the control polygon, may be off by a tenth of itself.
  static constexpr double negligible = 1e-11;

  void add(double from, double to, double length) {
    if (!(length > 0)) return;
    spans_.push_back({static_cast<std::uint32_t>(piece_), from, to, before_, length});
    before_ += length;
  }

  /// Halves the parts between bounds until `try_part` takes each.
  template <class Try> void halve(Try try_part) {
    std::sort(bounds_.begin(), bounds_.end());
    for (std::size_t i = bounds_.size() - 1; i > 0; --i)
      parts_.push_back({bounds_[i - 1], bounds_[i], 0});
    while (!parts_.empty()) {
      const Part part = parts_.back();
      parts_.pop_back();
      if (!(part.to > part.from) || try_part(part)) continue;
      const double middle = 0.5 * (part.from + part.to);
      parts_.push_back({middle, part.to, part.depth + 1});
      parts_.push_back({part.from, middle, part.depth + 1});
    }
  }

  static bool clear(const Part &part, Point root) {
    const double width = part.to - part.from;
    return clear_of((root.x - part.from) / width, root.y / width);
  }

  void cubic(const Velocities &v) {
    const Velocities whole = between(v, 0, 1);
    std::array<Point, 2> roots = standing(whole);
    if (turns_little(whole) && clear({0, 1, 0}, roots[0]) && clear({0, 1, 0}, roots[1])) {
      add(0, 1, cubic_length(whole));
      return;
    }
    bounds_ = {0, 1};
    const double largest = std::sqrt(largest_speed_squared(v));
    for (Point &root : roots) {
      const double nearest = std::clamp(root.x, 0.0, 1.0);
      const bool inside = nearest > 1e-12 && nearest < 1 - 1e-12;
      if (inside && std::abs(root.y) < 0.25) bounds_.push_back(nearest);
      // A cusp: from there on either way the speed is smooth, but for its other root, which may have the same nearest
      // point and stand off it.
      const bool stands = norm(blend(whole, nearest)) <= standstill * largest;
      if (stands && norm(root - Point{nearest, 0}) <= at_cusp) root = {1e9, 0};
    }
    const double short_enough = negligible * (norm(v[0]) + norm(v[1]) + norm(v[2])) / 3;
    halve([&](const Part &part) {
      const Velocities there = between(v, part.from, part.to);
      const bool smooth = (clear(part, roots[0]) && clear(part, roots[1])) ||
                          largest_speed_squared(there) < short_enough * short_enough;
      if (part.depth < deepest && !(smooth && turns_little(there))) return false;
      add(part.from, part.to, cubic_length(there));
      return true;
    });
  }

  void circle(const EllipticArc &arc) {
    const int parts = std::max(1, static_cast<int>(std::ceil(std::abs(arc.sweep) / right_angle - 1e-9)));
    const double share = 1.0 / parts;
    for (int i = 0; i < parts; ++i) {
      add(i * share, i + 1 == parts ? 1 : (i + 1) * share, norm(arc.major) * std::abs(arc.sweep) * share);
    }
  }

  /// Between two vertices the tangent turns by a right angle and the curvature is monotone. The speed squared has its
  /// roots beside the sharper vertices, where the angle's imaginary part is artanh(shorter / longer half-axis).
  void ellipse(const EllipticArc &arc) {
    const double first = std::min(arc.start, arc.start + arc.sweep) / right_angle;
    const double last = std::max(arc.start, arc.start + arc.sweep) / right_angle;
    bounds_ = {0, 1};
    for (int vertex = static_cast<int>(std::floor(first)) + 1; vertex < last; ++vertex) {
      bounds_.push_back(std::clamp((vertex * right_angle - arc.start) / arc.sweep, 0.0, 1.0));
    }
    const double a = norm(arc.major), b = norm(arc.minor);
    const double beside = std::atanh(std::min(a, b) / std::max(a, b));
    const double sharp = a >= b ? 0 : right_angle; // and every half turn on
    halve([&](const Part &part) {
      const double start = arc.start + arc.sweep * part.from, sweep = arc.sweep * (part.to - part.from);
      const double root = sharp + 2 * right_angle * std::round((start + 0.5 * sweep - sharp) / (2 * right_angle));
      const double length = arc_length(gauss, arc.major, arc.minor, start, sweep);
      const bool smooth = clear_of((root - start) / sweep, beside / sweep) || length < negligible * (a + b);
      if (part.depth < deepest && !smooth) return false;
      add(part.from, part.to, length);
      return true;
    });
  }

  static constexpr double right_angle = std::numbers::pi / 2;

  const Curve &curve_;
  std::size_t piece_ = 0;
  double before_ = 0;
  std::vector<Span> spans_;
  std::vector<double> bounds_;
  std::vector<Part> parts_;
};

} // namespace

std::vector<Span> measure(const Curve &curve) {
  return Measurer(curve).run();
}

Shape::Shape(const Curve &curve, const Span &span) {
  const Piece &piece = curve.pieces[span.piece];
  form_ = piece.form;
  const Point *p = &curve.points[piece.point];
  switch (form_) {
  case Piece::Form::line:
    first_ = p[0];
    velocity_[0] = p[1] - p[0];
    break;
  case Piece::Form::cubic: {
    round_ = false;
    first_ = point_of(p, span.from);
    velocity_ = between(velocities_of(curve, piece), span.from, span.to);
    break;
  }
  case Piece::Form::arc: {
    const EllipticArc &arc = curve.arcs[piece.arc];
    round_ = arc.round;
    first_ = arc.centre;
    velocity_ = {arc.major, arc.minor, Point{}};
    start_ = arc.start + arc.sweep * span.from;
    sweep_ = arc.sweep * (span.to - span.from);
    break;
  }
  }
}

Point Shape::at(double t) const {
  switch (form_) {
  case Piece::Form::line:
    return first_ + t * velocity_[0];
  case Piece::Form::cubic: {
    const double s = 1 - t;
    const Point &a = velocity_[0], &b = velocity_[1], &c = velocity_[2];
    return first_ + (t / 3) * ((1 + s + s * s) * a + (t * (1 + 2 * s)) * b + (t * t) * c);
  }
  default:
    return first_ + std::cos(angle(t)) * velocity_[0] + std::sin(angle(t)) * velocity_[1];
  }
}

Point Shape::velocity(double t) const {
  switch (form_) {
  case Piece::Form::line:
    return velocity_[0];
  case Piece::Form::cubic:
    return blend(velocity_, t);
  default:
    return sweep_ * (std::cos(angle(t)) * velocity_[1] - std::sin(angle(t)) * velocity_[0]);
  }
}

Point Shape::acceleration(double t) const {
  switch (form_) {
  case Piece::Form::line:
    return {};
  case Piece::Form::cubic:
    return (2 * (1 - t)) * (velocity_[1] - velocity_[0]) + (2 * t) * (velocity_[2] - velocity_[1]);
  default:
    return (-sweep_ * sweep_) * (std::cos(angle(t)) * velocity_[0] + std::sin(angle(t)) * velocity_[1]);
  }
}

Point Shape::heading(double t) const {
  const Point v = velocity(t);
  if (dot(v, v) > lost_square) return v;
  // Where the speed is 0 at an end, the nearest control vector that is not 0 points along the curve.
  for (const std::size_t i : {0, 1, 2}) {
    const Point &control = velocity_[t < 0.5 ? i : 2 - i];
    if (control.x != 0 || control.y != 0) return control;
  }
  return {1, 0};
}

Shape::Travel Shape::travel(double t) const {
  const Point v = velocity(t);
  const double speed_squared = dot(v, v);
  Travel travel;
  if (speed_squared > lost_square) {
    travel.velocity = v;
    travel.speed = std::sqrt(speed_squared);
  }
  if (uniform()) {
    travel.turn_rate = sweep_;
  } else if (travel.speed > 0) {
    travel.turn_rate = cross(v, acceleration(t)) / speed_squared;
  } else if (const double middle = dot(velocity_[1], velocity_[1]); middle > 0) {
    travel.turn_rate = cross(velocity_[t < 0.5 ? 1 : 0], velocity_[t < 0.5 ? 2 : 1]) / (2 * middle);
  }
  return travel;
}

double Shape::length(double from, double to) const {
  const double width = to - from;
  if (width == 0) return 0;
  if (form_ == Piece::Form::line) return norm(velocity_[0]) * width;
  if (uniform()) return norm(velocity_[0]) * std::abs(sweep_) * width;
  const bool short_step = std::abs(width) <= 0.1;
  if (form_ == Piece::Form::arc) {
    const double sweep = sweep_ * width;
    const double length = short_step ? arc_length(short_gauss, velocity_[0], velocity_[1], angle(from), sweep)
                                     : arc_length(gauss, velocity_[0], velocity_[1], angle(from), sweep);
    return std::copysign(length, width);
  }
  const Velocities part = {blossom(velocity_, from, from), blossom(velocity_, from, to), blossom(velocity_, to, to)};
  return (short_step ? sum(short_gauss, speeds(short_weights, part)) : cubic_length(part)) * width;
}

double Shape::turn(double from, double to) const {
  if (form_ == Piece::Form::line) return 0;
  if (uniform()) return sweep_ * (to - from);
  return turn_between(heading(from), heading(to));
}

Places Shape::parallels(Point direction) const {
  if (straight()) return {};
  if (cubic()) {
    return roots_between(
        {cross(velocity_[0], direction), cross(velocity_[1], direction), cross(velocity_[2], direction)});
  }
  // The direction is along minor * cos - major * sin; it comes back after half a turn, twice what a span turns at most.
  const double angle = std::atan2(cross(velocity_[1], direction), cross(velocity_[0], direction));
  const double first = std::min(start_, start_ + sweep_);
  const double on = angle + std::ceil((first - angle) / std::numbers::pi) * std::numbers::pi;
  const double t = (on - start_) / sweep_;
  return t > 0 && t < 1 ? Places{{t}, 1} : Places{};
}

Places Shape::inflections() const {
  if (!cubic()) return {};
  return roots_between({2 * cross(velocity_[0], velocity_[1]), cross(velocity_[0], velocity_[2]),
                        2 * cross(velocity_[1], velocity_[2])});
}

bool Shape::heads(Point ahead) const {
  if (form_ != Piece::Form::cubic) return dot(heading(0), ahead) > 0 && dot(heading(1), ahead) > 0;
  // A speed of 0 at an end, where a control point lies on it, leaves the direction to the others.
  const auto stays = [&](Point v) { return dot(v, ahead) > 0 || (v.x == 0 && v.y == 0); };
  return stays(velocity_[0]) && stays(velocity_[1]) && stays(velocity_[2]);
}

std::array<Point, 3> Shape::velocities(double from, double to) const {
  return between(velocity_, from, to);
}

std::array<Point, 2> Shape::directions(double from, double to) const {
  if (form_ != Piece::Form::cubic) {
    const Point a = tangent(from), b = tangent(to);
    return sweep_ >= 0 ? std::array{a, b} : std::array{b, a};
  }
  std::array<Point, 2> ends{};
  bool any = false;
  for (const Point &v : velocities(from, to)) {
    if (v.x == 0 && v.y == 0) continue;
    if (!any) ends = {v, v};
    any = true;
    if (cross(v, ends[0]) > 0) ends[0] = v;
    if (cross(ends[1], v) > 0) ends[1] = v;
  }
  if (!any) return {tangent(from), tangent(to)};
  return {unit(ends[0]), unit(ends[1])};
}

} // namespace gatherwright::edge
