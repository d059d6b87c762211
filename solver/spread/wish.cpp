// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/spread/spread.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace gatherwright::spread {

namespace {

using Points = std::span<const std::array<double, 2>>;

// Two points nearer than this fraction of the band are a jump: nobody marks so finely, and slopes stay finite.
constexpr double jump = 1e-12;

// So small a part of the greatest w is 0: what would bring it to the cap must itself be a number.
constexpr double nothing = 1e-100;

void add(Wish &wish, double end, const Cubic &piece) {
  if (!(end > wish.knots.back())) return;
  wish.knots.push_back(end);
  wish.pieces.push_back(piece);
}

/// The greatest w; one that is no number counts as 0, one without bound as the greatest double.
double greatest_of(Points points) {
  double greatest = 0;
  for (const auto &point : points)
    greatest = std::max(greatest, point[1] > 0 ? point[1] : 0);
  return std::min(greatest, std::numeric_limits<double>::max());
}

/// w over the greatest.
double relative(const std::array<double, 2> &point, double greatest) {
  const double part = point[1] > 0 ? std::min(point[1] / greatest, 1.0) : 0;
  return part < nothing ? 0 : part;
}

double secant(Points points, std::size_t i, double greatest) {
  const double rise = relative(points[i + 1], greatest) - relative(points[i], greatest);
  return rise / std::max(points[i + 1][0] - points[i][0], jump);
}

/// Steffen's slope at point i, to the fraction of the band.
double slope(Points points, std::size_t i, double greatest) {
  if (i == 0) return secant(points, 0, greatest);
  if (i + 1 == points.size()) return secant(points, i - 1, greatest);
  const double before = secant(points, i - 1, greatest);
  const double after = secant(points, i, greatest);
  if ((before > 0) != (after > 0)) return 0;
  const double width_before = std::max(points[i][0] - points[i - 1][0], jump);
  const double width_after = std::max(points[i + 1][0] - points[i][0], jump);
  const double parabola = (before * width_after + after * width_before) / (width_before + width_after);
  const double size = 2 * std::min({std::abs(before), std::abs(after), std::abs(parabola) / 2});
  return before > 0 ? size : -size;
}

/// The cubic of the piece from point i to the next: values and slopes at both ends.
Cubic steffen_piece(Points points, std::size_t i, double greatest) {
  const double width = points[i + 1][0] - points[i][0];
  const double from = relative(points[i], greatest);
  const double to = relative(points[i + 1], greatest);
  if (!(width > jump)) return {(from + to) / 2, 0, 0, 0};
  const double rise = to - from;
  if (points.size() == 2) return {from, rise, 0, 0};
  const double leaving = slope(points, i, greatest) * width;
  const double arriving = slope(points, i + 1, greatest) * width;
  return {from, leaving, 3 * rise - 2 * leaving - arriving, leaving + arriving - 2 * rise};
}

} // namespace

Wish even(double band) {
  return {{0, band}, {{1, 0, 0, 0}}};
}

Wish fade(double band, double rise, double fall) {
  const double top = std::clamp(rise, 0.0, band);
  const double brink = std::clamp(band - fall, top, band);
  Wish wish{{0}, {}};
  wish.knots.reserve(4);
  wish.pieces.reserve(3);
  add(wish, top, {0, 1, 0, 0});
  // Fades that leave nothing between them but the rounding of their sum meet in a point.
  if (brink - top > jump * band || brink == band) add(wish, brink, {1, 0, 0, 0});
  add(wish, band, {1, -1, 0, 0});
  return wish;
}

Wish shape(double band, std::span<const std::array<double, 2>> points) {
  const double greatest = greatest_of(points);
  if (points.size() < 2 || greatest == 0) return {{0, band}, {{points.size() < 2 ? 1.0 : 0.0, 0, 0, 0}}};
  Wish wish{{0}, {}};
  wish.knots.reserve(points.size());
  wish.pieces.reserve(points.size() - 1);
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    const bool last = i + 2 == points.size();
    add(wish, last ? band : points[i + 1][0] * band, steffen_piece(points, i, greatest));
  }
  return wish;
}

} // namespace gatherwright::spread
