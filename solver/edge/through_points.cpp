// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/through_points.hpp"

#include "solver/edge/path_text.hpp"
#include "solver/edge/spline.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace gatherwright {

namespace {

using edge::Point;

/// Points that one spline goes through.
struct Run {
  std::size_t first = 0;
  std::size_t chords = 0;
  bool ring = false;
};

std::vector<Run> runs_of(std::span<const MeasuredPoint> points, bool closed) {
  std::vector<std::size_t> breaks;
  for (std::size_t i = 0; i < points.size(); ++i)
    if (points[i].corner || (!closed && (i == 0 || i + 1 == points.size()))) breaks.push_back(i);
  if (breaks.empty()) return {{0, points.size(), true}};
  if (closed) breaks.push_back(breaks.front() + points.size());
  std::vector<Run> runs;
  for (std::size_t i = 0; i + 1 < breaks.size(); ++i)
    runs.push_back({breaks[i], breaks[i + 1] - breaks[i], false});
  return runs;
}

bool can_be_joined(const std::vector<Point> &points, bool closed) {
  if (points.size() < (closed ? 3 : 2)) return false;
  const double most = farthest_point.mm;
  const bool within = std::all_of(points.begin(), points.end(), [most](const Point &point) {
    return std::abs(point.x) <= most && std::abs(point.y) <= most;
  });
  if (!within || (closed && points.back() == points.front())) return false;
  return std::adjacent_find(points.begin(), points.end()) == points.end();
}

/// All that is known of the line: the controls over each chord, and how its length changes as each point moves.
struct Drawn {
  std::vector<std::array<Point, 2>> controls;
  std::vector<bool> straight;
  std::vector<Point> gradient;
};

void draw(const std::vector<Point> &points, const Run &run, Drawn &drawn) {
  const auto index = [&](std::size_t i) { return (run.first + i) % points.size(); };
  std::vector<Point> through;
  for (std::size_t i = 0; i < run.chords + (run.ring ? 0 : 1); ++i)
    through.push_back(points[index(i)]);
  const edge::Spline spline(std::move(through), run.ring);
  for (std::size_t i = 0; i < run.chords; ++i) {
    drawn.controls[index(i)] = spline.controls(i);
    drawn.straight[index(i)] = run.chords == 1;
  }
  const std::vector<Point> gradient = spline.length_gradient();
  for (std::size_t i = 0; i < gradient.size(); ++i)
    drawn.gradient[index(i)] = drawn.gradient[index(i)] + gradient[i];
}

} // namespace

std::optional<LineThrough> line_through(std::span<const MeasuredPoint> points, bool closed) {
  std::vector<Point> places;
  for (const MeasuredPoint &point : points)
    places.push_back({point.x, -point.y});
  if (!can_be_joined(places, closed)) return std::nullopt;
  Drawn drawn{std::vector<std::array<Point, 2>>(places.size()), std::vector<bool>(places.size()),
              std::vector<Point>(places.size())};
  for (const Run &run : runs_of(points, closed))
    draw(places, run, drawn);
  edge::PathText text;
  text.command('M', {places.front()});
  for (std::size_t i = 0; i < places.size() - (closed ? 0 : 1); ++i) {
    const Point to = places[(i + 1) % places.size()];
    if (drawn.straight[i])
      text.command('L', {to});
    else
      text.command('C', {drawn.controls[i][0], drawn.controls[i][1], to});
  }
  if (closed) text.close();
  LineThrough line{text.take(), {0}};
  for (const Point &each : drawn.gradient)
    line.misread.mm += edge::norm(each);
  return line;
}

} // namespace gatherwright
