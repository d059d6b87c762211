// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/edge/span.hpp"

#include "tests/solver/edge/drawing.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <gsl/gsl_integration.h>
#include <gsl/gsl_sf_ellint.h>
#include <memory>
#include <numbers>
#include <random>

using namespace gatherwright;
using namespace gatherwright::edge;
using namespace gatherwright::tests;

namespace {

/// Length of a cubic by GSL, in 64 parts so that a cusp spoils only one.
double by_gsl(const std::array<Point, 4> &p) {
  struct Speed {
    static double at(double t, void *points) {
      const Point *q = static_cast<Point *>(points);
      const double s = 1 - t;
      return 3 * norm((s * s) * (q[1] - q[0]) + (2 * s * t) * (q[2] - q[1]) + (t * t) * (q[3] - q[2]));
    }
  };
  const std::unique_ptr<gsl_integration_workspace, decltype(&gsl_integration_workspace_free)> space(
      gsl_integration_workspace_alloc(2000), gsl_integration_workspace_free);
  std::array<Point, 4> points = p;
  gsl_function speed{&Speed::at, points.data()};
  double sum = 0;
  for (int i = 0; i < 64; ++i) {
    double part = 0, error = 0;
    gsl_integration_qags(&speed, i / 64.0, (i + 1) / 64.0, 1e-13, 1e-12, 2000, space.get(), &part, &error);
    sum += part;
  }
  return sum;
}

} // namespace

// Computed by adaptive quadrature and cross-checked by an independent program.
TEST_CASE("curves have their exact lengths") {
  CHECK(length_of("M0 0C60 0 90 -140 180 -140") == exactly(236.955062224));
  CHECK(length_of("M0 0Q5 10 10 0") == exactly(14.789428575));
  CHECK(length_of("M0 0A300 100 0 0 1 300 100") == exactly(334.122330514));
  CHECK(length_of("M25 0A25 25 0 1 1 0 -25") == exactly(117.809724510));
  CHECK(length_of("M0 0C100 100 0 100 100 0") == exactly(182.842712475)); // a cusp
  CHECK(length_of("M0 0C200 0 -100 0 100 0") == exactly(189.442719100));  // on a line, there and back
  const Curve curve = curve_of("M0 0C60 0 90 -140 180 -140");
  CHECK(Shape(curve, Span{0, 0, 1, 0, 0}).length(0, 0.5) == exactly(108.929184176));
}

TEST_CASE("a quadratic has the length of its closed form") {
  // y = x^2 from 0 to 1, ten times as large.
  CHECK(length_of("M0 0Q5 0 10 10") == exactly(10 * (std::sqrt(5) / 2 + std::asinh(2) / 4)));
}

TEST_CASE("ellipses have the length of the complete elliptic integral") {
  for (const double ratio : {0.9, 0.5, 0.1, 1e-2, 1e-3, 1e-4, 1e-5, 1e-7}) {
    const double a = 100, b = ratio * a;
    CAPTURE(ratio);
    gsl_sf_result e;
    REQUIRE(gsl_sf_ellint_Ecomp_e(std::sqrt(1 - ratio * ratio), GSL_PREC_DOUBLE, &e) == 0);
    Curve curve;
    curve.points.push_back({a, 0});
    add_arc(curve, *arc_between({a, 0}, {-a, 0}, a, b, 0, false, true), {-a, 0});
    add_arc(curve, *arc_between({-a, 0}, {a, 0}, a, b, 0, false, true), {a, 0});
    const std::vector<Span> spans = measure(curve);
    CHECK(spans.back().start + spans.back().length == Approx(4 * a * e.val).epsilon(1e-10));
  }
}

TEST_CASE("random cubics have the length GSL gives them") {
  std::mt19937_64 random(20);
  std::uniform_real_distribution<double> coordinate(-100, 100);
  for (int i = 0; i < 200; ++i) {
    std::array<Point, 4> p;
    for (Point &point : p)
      point = {coordinate(random), coordinate(random)};
    if (i % 5 == 1) p[1] = p[0];
    if (i % 5 == 2) p[2] = p[3];
    if (i % 5 == 3) p[2] = p[1] + Point{1e-4, 1e-5};
    Curve curve;
    curve.points.push_back(p[0]);
    add_cubic(curve, p[1], p[2], p[3]);
    const std::vector<Span> spans = measure(curve);
    CAPTURE(i);
    CHECK(spans.back().start + spans.back().length == Approx(by_gsl(p)).epsilon(1e-10));
  }
}

TEST_CASE("a curve that stands still at an end and nearly so beside it has the length GSL gives it") {
  std::mt19937_64 random(22);
  std::uniform_real_distribution<double> coordinate(-100, 100), magnitude(-7, 0);
  for (int i = 0; i < 400; ++i) {
    const Point start{coordinate(random), coordinate(random)}, end{coordinate(random), coordinate(random)};
    const double size = std::pow(10, magnitude(random));
    const Point near = start + size * Point{coordinate(random), coordinate(random)};
    std::array<Point, 4> p{start, start, near, end};
    if (i % 2) std::reverse(p.begin(), p.end());
    Curve curve;
    curve.points.push_back(p[0]);
    add_cubic(curve, p[1], p[2], p[3]);
    const std::vector<Span> spans = measure(curve);
    CAPTURE(i, size);
    CHECK(spans.back().start + spans.back().length == Approx(by_gsl(p)).epsilon(1e-10));
  }
}

TEST_CASE("cusps and near cusps are measured like any other curve") {
  // The control points cross over; at 0 the cubic has a cusp at the middle, its two halves alike.
  for (const double gap : {0.0, 1e-13, 1e-11, 1e-9, 1e-7, 1e-5, 1e-3, 0.1}) {
    const std::array<Point, 4> p{Point{0, 0}, Point{100 + gap, 100}, Point{0 - gap, 100}, Point{100, 0}};
    CAPTURE(gap);
    Curve curve;
    curve.points.push_back(p[0]);
    add_cubic(curve, p[1], p[2], p[3]);
    const std::vector<Span> spans = measure(curve);
    CHECK(spans.back().start + spans.back().length == Approx(by_gsl(p)).epsilon(1e-10));
    CHECK(spans.size() < 200);
  }
}

TEST_CASE("a span turns by at most a right angle and its parts add up") {
  for (const char *path :
       {"M0 0C100 100 0 100 100 0", "M0 0C60 0 90 -140 180 -140", "M0 0A300 100 20 1 1 30 100", "M0 0a5 5 0 1 1 .1 .1",
        "M0 0C300 0 -200 50 100 50", "M0 0C0 0 50 80 100 0", "M0 0h5C5 0 60 70 60 70"}) {
    const Curve curve = curve_of(path);
    CAPTURE(path);
    double sum = 0;
    for (const Span &span : measure(curve)) {
      const Shape shape(curve, span);
      CHECK(span.start == exactly(sum));
      sum += span.length;
      CHECK(std::abs(shape.turn(0, 1)) <= std::numbers::pi / 2 + 1e-9);
      CHECK(shape.length(0, 0.3) + shape.length(0.3, 1) == exactly(span.length));
      CHECK(shape.length(0.3, 0.35) == exactly(shape.length(0, 0.35) - shape.length(0, 0.3)));
      // Velocity, turn and place agree with each other.
      const double t = 0.37, step = 1e-6;
      const Point across = (0.5 / step) * (shape.at(t + step) - shape.at(t - step));
      CHECK(norm(across - shape.velocity(t)) <= 1e-6 * (1 + norm(shape.velocity(t))));
      CHECK(shape.travel(t).turn_rate == Approx(shape.turn(t - step, t + step) / (2 * step)).margin(1e-5));
      const auto directions = shape.directions(0, 1);
      for (const double s : {0.0, 0.2, 0.5, 0.9, 1.0}) {
        CHECK(cross(directions[0], shape.tangent(s)) >= -1e-9);
        CHECK(cross(shape.tangent(s), directions[1]) >= -1e-9);
      }
    }
  }
}

TEST_CASE("where a control point lies on an end the curve sets out towards the next") {
  const Curve start = curve_of("M0 0C0 0 30 40 100 40");
  CHECK(norm(Shape(start, measure(start).front()).tangent(0) - Point{0.6, 0.8}) < 1e-12);
  const Curve end = curve_of("M0 0C50 0 100 40 100 40");
  CHECK(norm(Shape(end, measure(end).back()).tangent(1) - unit({50, 40})) < 1e-12);
  const Curve both = curve_of("M0 0C0 0 30 40 30 40");
  CHECK(norm(Shape(both, measure(both).front()).tangent(0) - Point{0.6, 0.8}) < 1e-12);
  CHECK(measure(both).front().length == exactly(50));
}

TEST_CASE("parallels and inflections are where they say") {
  const Curve curve = curve_of("M0 0C40 60 60 -60 100 10");
  int found = 0;
  for (const Span &span : measure(curve)) {
    const Shape shape(curve, span);
    for (const double t : shape.parallels({1, 0})) {
      ++found;
      CHECK(std::abs(shape.tangent(t).y) < 1e-12);
    }
    for (const double t : shape.inflections())
      CHECK(std::abs(shape.travel(t).turn_rate) < 1e-9);
  }
  CHECK(found == 2);
  const Curve arc = curve_of("M0 0A300 100 20 1 1 30 100");
  found = 0;
  for (const Span &span : measure(arc)) {
    const Shape shape(arc, span);
    for (const double t : shape.parallels({0.6, 0.8})) {
      ++found;
      CHECK(std::abs(cross(shape.tangent(t), Point{0.6, 0.8})) < 1e-12);
    }
  }
  CHECK(found >= 1);
}
