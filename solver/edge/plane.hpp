// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>

/// Points and directions of the page: x to the right, y downwards, in whatever unit the path is drawn in.
namespace gatherwright::edge {

struct Point {
  double x = 0;
  double y = 0;

  friend bool operator==(const Point &, const Point &) = default;
};

inline Point operator+(Point a, Point b) {
  return {a.x + b.x, a.y + b.y};
}
inline Point operator-(Point a, Point b) {
  return {a.x - b.x, a.y - b.y};
}
inline Point operator*(double k, Point a) {
  return {k * a.x, k * a.y};
}

inline double dot(Point a, Point b) {
  return a.x * b.x + a.y * b.y;
}

/// Above 0 where `b` lies to the right of `a` as seen on the page.
inline double cross(Point a, Point b) {
  return a.x * b.y - a.y * b.x;
}

inline double norm(Point a) {
  return std::sqrt(dot(a, a));
}

/// The direction of `a`; `a` must not be 0.
inline Point unit(Point a) {
  return (1 / norm(a)) * a;
}

/// The direction to the right of travel along `a`, as seen on the page.
inline Point right_of(Point a) {
  return {-a.y, a.x};
}

/// The turn from `a` to `b`, radians in (-pi, pi], to the right above 0. Neither need have length 1.
inline double turn_between(Point a, Point b) {
  return std::atan2(cross(a, b), dot(a, b));
}

} // namespace gatherwright::edge
