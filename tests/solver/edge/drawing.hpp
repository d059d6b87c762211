// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/edge/path.hpp"
#include "solver/edge/stitching.hpp"
#include "tests/outcomes.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace gatherwright::tests {

/// The curve of a path; the test fails where it is refused.
inline edge::Curve curve_of(std::string_view path) {
  edge::PathOutcome outcome = edge::read_path(path);
  if (const auto *fault = tests::fault_in(outcome)) FAIL(path << ": " << fault->fault.what);
  return *std::move(outcome);
}

/// The fault of a path; the test fails where it is read.
inline edge::PathFault fault_of(std::string_view path) {
  edge::PathOutcome outcome = edge::read_path(path);
  if (outcome) FAIL(path << " was read");
  return std::move(outcome).fault();
}

inline double length_of(std::string_view path) {
  const std::vector<edge::Span> spans = edge::measure(curve_of(path));
  return spans.empty() ? 0 : spans.back().start + spans.back().length;
}

/// The stitching line beside a path; the test fails where there is none.
inline edge::StitchingLine line_of(std::string_view path, double allowance, edge::Side garment) {
  auto outcome = edge::StitchingLine::beside(curve_of(path), allowance, garment);
  if (const auto *unresolved = tests::fault_in(outcome)) {
    FAIL(path << ": no line, kind " << static_cast<int>(unresolved->kind) << " at " << unresolved->along);
  }
  return *std::move(outcome);
}

inline edge::Unresolved unresolved_of(std::string_view path, double allowance, edge::Side garment) {
  const auto outcome = edge::StitchingLine::beside(curve_of(path), allowance, garment);
  if (outcome) FAIL(path << " has a line");
  return outcome.fault();
}

/// A curve as many points, none further apart along it than `step`.
inline std::vector<edge::Point> polyline(const edge::Curve &curve, double step) {
  std::vector<edge::Point> points;
  for (const edge::Span &span : edge::measure(curve)) {
    const edge::Shape shape(curve, span);
    const int parts = std::max(1, static_cast<int>(std::ceil(span.length / step)));
    for (int i = 0; i <= parts; ++i)
      points.push_back(shape.at(static_cast<double>(i) / parts));
  }
  return points;
}

inline double distance_to(const std::vector<edge::Point> &points, edge::Point from) {
  double least = std::numeric_limits<double>::infinity();
  for (const edge::Point &point : points)
    least = std::min(least, edge::dot(point - from, point - from));
  return std::sqrt(least);
}

inline Approx exactly(double value) {
  return Approx(value).epsilon(1e-9).margin(1e-9);
}

} // namespace gatherwright::tests
