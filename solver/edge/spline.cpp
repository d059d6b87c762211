// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/edge/spline.hpp"

#include "solver/edge/quadrature.hpp"

#include <utility>

namespace gatherwright::edge {

namespace {

/// A symmetric tridiagonal matrix, here always of a dominant diagonal, so that it is solved without a pivot.
struct Tridiagonal {
  std::vector<double> diagonal;
  std::vector<double> beside; ///< one fewer

  /// The right sides become the solutions.
  template <class Value> void solve(std::vector<Value> &right) const {
    std::vector<double> left = diagonal;
    for (std::size_t i = 1; i < left.size(); ++i) {
      const double factor = beside[i - 1] / left[i - 1];
      left[i] -= factor * beside[i - 1];
      right[i] = right[i] - factor * right[i - 1];
    }
    for (std::size_t i = left.size(); i-- > 0;) {
      if (i + 1 < left.size()) right[i] = right[i] - beside[i] * right[i + 1];
      right[i] = (1 / left[i]) * right[i];
    }
  }
};

/// The same with one more entry in two corners (Sherman and Morrison's formula).
void solve_ring(Tridiagonal matrix, double corner, std::vector<Point> &right) {
  const double gamma = -matrix.diagonal.front();
  matrix.diagonal.front() -= gamma;
  matrix.diagonal.back() -= corner * corner / gamma;
  std::vector<double> along(right.size(), 0.0);
  along.front() = gamma;
  along.back() = corner;
  matrix.solve(right);
  matrix.solve(along);
  const Point seen = right.front() + (corner / gamma) * right.back();
  const double by = 1 + along.front() + corner / gamma * along.back();
  for (std::size_t i = 0; i < right.size(); ++i)
    right[i] = right[i] - (along[i] / by) * seen;
}

} // namespace

Spline::Spline(std::vector<Point> points, bool ring) : points_(std::move(points)), ring_(ring) {
  const std::size_t count = ring_ ? points_.size() : points_.size() - 1;
  chords_.reserve(count);
  for (std::size_t i = 0; i < count; ++i) {
    const Point chord = points_[end_of(i)] - points_[i];
    chords_.push_back({unit(chord), norm(chord)});
  }
  std::vector<Point> turns(points_.size());
  for (std::size_t i = 0; i < points_.size(); ++i)
    if (bends_at(i)) turns[i] = 6.0 * (chords_[i].way - chords_[i == 0 ? count - 1 : i - 1].way);
  bends_ = solved(std::move(turns));
}

/// What has the bends of a spline for its unknowns; 0 where there is none.
std::vector<Point> Spline::solved(std::vector<Point> right) const {
  const std::size_t first = ring_ ? 0 : 1, last = ring_ ? points_.size() : points_.size() - 1;
  if (first >= last) return std::vector<Point>(points_.size());
  Tridiagonal matrix;
  for (std::size_t i = first; i < last; ++i) {
    const double before = chords_[i == 0 ? chords_.size() - 1 : i - 1].length;
    matrix.diagonal.push_back(2 * (before + chords_[i].length));
    if (i + 1 < last) matrix.beside.push_back(chords_[i].length);
  }
  std::vector<Point> found(right.begin() + static_cast<std::ptrdiff_t>(first),
                           right.begin() + static_cast<std::ptrdiff_t>(last));
  if (ring_) {
    solve_ring(std::move(matrix), chords_.back().length, found);
    return found;
  }
  matrix.solve(found);
  found.insert(found.begin(), Point{});
  found.push_back({});
  return found;
}

std::array<Point, 2> Spline::controls(std::size_t chord) const {
  const auto [way, length] = chords_[chord];
  const Point from = bends_[chord], to = bends_[end_of(chord)];
  const Point leaving = way - (length / 6) * (2 * from + to);
  const Point arriving = way + (length / 6) * (from + 2 * to);
  return {points_[chord] + (length / 3) * leaving, points_[end_of(chord)] - (length / 3) * arriving};
}

/// Of the length, by what it is reckoned from.
struct Spline::Slopes {
  std::vector<Point> way;
  std::vector<double> length;
  std::vector<Point> bend;
};

/// On a chord of length h the velocity is way + h (from (1/6 - (1 - t)^2 / 2) + to (t^2 / 2 - 1/6)).
void Spline::add_slopes(std::size_t chord, Slopes &slopes) const {
  const auto [way, length] = chords_[chord];
  const std::size_t from = chord, to = end_of(chord);
  for (std::size_t node = 0; node < gauss.node.size(); ++node) {
    const double t = gauss.node[node], weight = gauss.weight[node];
    const double of_from = 1.0 / 6 - (1 - t) * (1 - t) / 2, of_to = t * t / 2 - 1.0 / 6;
    const Point bent = of_from * bends_[from] + of_to * bends_[to];
    const Point velocity = way + length * bent;
    const double speed = norm(velocity);
    const Point heading = speed > 0 ? (1 / speed) * velocity : Point{};
    slopes.way[chord] = slopes.way[chord] + (weight * length) * heading;
    slopes.length[chord] += weight * (speed + length * dot(heading, bent));
    slopes.bend[from] = slopes.bend[from] + (weight * length * length * of_from) * heading;
    slopes.bend[to] = slopes.bend[to] + (weight * length * length * of_to) * heading;
  }
}

/// By the adjoint of the system that gives the bends: its matrix is symmetric.
std::vector<Point> Spline::length_gradient() const {
  const std::size_t knots = points_.size();
  Slopes slopes{std::vector<Point>(chords_.size()), std::vector<double>(chords_.size()), std::vector<Point>(knots)};
  for (std::size_t chord = 0; chord < chords_.size(); ++chord)
    add_slopes(chord, slopes);
  const std::vector<Point> adjoint = solved(slopes.bend);
  std::vector<Point> gradient(knots);
  for (std::size_t chord = 0; chord < chords_.size(); ++chord) {
    const auto [way, length] = chords_[chord];
    const std::size_t from = chord, to = end_of(chord);
    const Point by_way = slopes.way[chord] + 6.0 * (adjoint[from] - adjoint[to]);
    const double by_length = slopes.length[chord] - dot(adjoint[from], 2 * bends_[from] + bends_[to]) -
                             dot(adjoint[to], bends_[from] + 2 * bends_[to]);
    const Point by_chord = by_length * way + (1 / length) * (by_way - dot(way, by_way) * way);
    gradient[to] = gradient[to] + by_chord;
    gradient[from] = gradient[from] - by_chord;
  }
  return gradient;
}

} // namespace gatherwright::edge
