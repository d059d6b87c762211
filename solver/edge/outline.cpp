// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/edge/outline.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace gatherwright::edge {

namespace {

/// Halvings of one run at most: each makes the departure from the chord about four times smaller.
constexpr int most_halvings = 14;

double distance_to_chord(Point at, Point from, Point to) {
  const Point chord = to - from;
  const double length = norm(chord);
  return length > 0 ? std::abs(cross(chord, at - from)) / length : norm(at - from);
}

/// Adds the points after `from` up to `to`. Looked at in four places: a run turns by no more than a right angle, but
/// may bend both ways, and its moved line may be far from even.
void add_points(std::vector<Point> &points, const Moved &moved, double from, double to, double within, int halvings) {
  const Point start = moved.at(from);
  const Point end = moved.at(to);
  constexpr std::array looked_at{0.2, 0.4, 0.6, 0.8};
  const bool near = std::all_of(looked_at.begin(), looked_at.end(), [&](double share) {
    return distance_to_chord(moved.at(from + share * (to - from)), start, end) <= within / 2;
  });
  if (near || halvings == 0) {
    points.push_back(end);
    return;
  }
  const double middle = (from + to) / 2;
  add_points(points, moved, from, middle, within, halvings - 1);
  add_points(points, moved, middle, to, within, halvings - 1);
}

void go_to(std::vector<Point> &points, Point at, double within) {
  if (points.empty() || norm(points.back() - at) > within / 4) points.push_back(at);
}

} // namespace

std::vector<Point> stitching_points(const StitchingLine &line, double from, double to, double within) {
  std::vector<Point> points;
  for (const StitchingLine::Run &run : line.runs(from, to)) {
    go_to(points, line.place(run.start).at, within);
    if (run.from == run.to)
      points.push_back(line.place(run.start + run.length).at);
    else
      add_points(points, run.moved, run.from, run.to, within, most_halvings);
  }
  return points;
}

std::vector<Point> cut_edge_points(const StitchingLine &line, double from, double to, double within) {
  std::vector<Point> points;
  for (const StitchingLine::Run &run : line.cut_edge_runs()) {
    if (!(run.start < to && from < run.start + run.length)) continue;
    const auto parameter = [&run](double along) {
      return run.moved.foot(run.from, run.to, run.length, along - run.start).parameter;
    };
    const double begin = from > run.start ? parameter(from) : run.from;
    const double end = to < run.start + run.length ? parameter(to) : run.to;
    go_to(points, run.moved.at(begin), within);
    add_points(points, run.moved, begin, end, within, most_halvings);
  }
  return points;
}

} // namespace gatherwright::edge
