// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

/// Points and directions on a page, and lines by the length along them.
namespace gatherwright::paper {

inline Point operator+(Point a, Point b) {
  return {a.x + b.x, a.y + b.y};
}
inline Point operator-(Point a, Point b) {
  return {a.x - b.x, a.y - b.y};
}
inline Point operator*(double k, Point a) {
  return {k * a.x, k * a.y};
}
inline double norm(Point a) {
  return std::hypot(a.x, a.y);
}

/// Of length 1; of nothing, to the right.
inline Point direction_of(Point a) {
  const double length = norm(a);
  return length > 0 ? (1 / length) * a : Point{1, 0};
}

/// A line by the length along it; two points at least. `points` must outlive it.
class Way {
public:
  explicit Way(const std::vector<Point> &points) : points_(points) {
    for (std::size_t i = 0; i < points.size(); ++i)
      along_.push_back(i == 0 ? 0 : along_.back() + norm(points[i] - points[i - 1]));
  }

  double length() const { return along_.back(); }

  struct Place {
    Point at;
    Point tangent; ///< length 1
  };

  /// Straight on before the first point and beyond the last.
  Place place(double along) const {
    const auto after = std::upper_bound(along_.begin() + 1, along_.end() - 1, along);
    const auto i = static_cast<std::size_t>(after - along_.begin());
    const Point tangent = direction_of(points_[i] - points_[i - 1]);
    return {points_[i - 1] + (along - along_[i - 1]) * tangent, tangent};
  }

private:
  const std::vector<Point> &points_;
  std::vector<double> along_;
};

} // namespace gatherwright::paper
