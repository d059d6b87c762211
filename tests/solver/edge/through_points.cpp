// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/through_points.hpp"

#include "tests/solver/edge/drawing.hpp"

#include <catch2/catch.hpp>
#include <gsl/gsl_sf_ellint.h>
#include <gsl/gsl_spline.h>

#include <cmath>
#include <functional>
#include <memory>
#include <numbers>
#include <vector>

using namespace gatherwright;
using namespace gatherwright::tests;

namespace {

using MeasuredPoints = std::vector<MeasuredPoint>;

LineThrough through(const MeasuredPoints &points, bool closed = false) {
  const auto line = line_through(points, closed);
  REQUIRE(line);
  return *line;
}

double length_through(const MeasuredPoints &points, bool closed = false) {
  return length_of(through(points, closed).path);
}

MeasuredPoints sampled(int count, double from, double to, const std::function<MeasuredPoint(double)> &at) {
  MeasuredPoints points;
  for (int i = 0; i < count; ++i)
    points.push_back(at(from + (to - from) * i / (count - 1)));
  return points;
}

/// Points of a closed curve, without the first again at the end.
MeasuredPoints ring(int count, double across, double up) {
  MeasuredPoints points;
  for (int i = 0; i < count; ++i) {
    const double angle = 2 * std::numbers::pi * i / count;
    points.push_back({across * std::cos(angle), up * std::sin(angle)});
  }
  return points;
}

double perimeter(double across, double up) {
  const double modulus = std::sqrt(1 - up * up / (across * across));
  return 4 * across * gsl_sf_ellint_Ecomp(modulus, GSL_PREC_DOUBLE);
}

/// The exponent of the spacing that the error goes with, between two spacings of which one is half the other.
double order(double error, double of_half) {
  return std::log2(std::abs(error) / std::abs(of_half));
}

const MeasuredPoints cap = {{0, 0},    {25, 8},   {60, 70}, {120, 152}, {185, 158},
                            {250, 90}, {300, 40}, {330, 5}, {365, 0}};

/// GSL's spline over the same chords, as another judge: the place at a share of a chord.
class ByGsl {
public:
  ByGsl(MeasuredPoints points, const gsl_interp_type *type) {
    std::vector<double> x, y;
    for (std::size_t i = 0; i < points.size(); ++i) {
      along_.push_back(
          i == 0 ? 0 : along_.back() + std::hypot(points[i].x - points[i - 1].x, points[i].y - points[i - 1].y));
      x.push_back(points[i].x);
      y.push_back(points[i].y);
    }
    for (const auto &[values, spline] : {std::pair(&x, &x_), std::pair(&y, &y_)}) {
      spline->reset(gsl_spline_alloc(type, points.size()));
      gsl_spline_init(spline->get(), along_.data(), values->data(), points.size());
    }
  }

  edge::Point at(std::size_t chord, double share) const {
    const double t = along_[chord] + share * (along_[chord + 1] - along_[chord]);
    return {gsl_spline_eval(x_.get(), t, nullptr), -gsl_spline_eval(y_.get(), t, nullptr)};
  }

private:
  struct Free {
    void operator()(gsl_spline *spline) const { gsl_spline_free(spline); }
  };
  std::vector<double> along_;
  std::unique_ptr<gsl_spline, Free> x_, y_;
};

void check_by(const ByGsl &other, const edge::Curve &curve) {
  const std::vector<edge::Span> spans = edge::measure(curve);
  for (const edge::Span &span : spans)
    REQUIRE(span.length > 0);
  for (std::size_t i = 0; i < curve.pieces.size(); ++i)
    for (const double t : {0.0, 0.2, 0.5, 0.9, 1.0}) {
      REQUIRE(curve.pieces[i].form == edge::Piece::Form::cubic);
      const auto *p = &curve.points[curve.pieces[i].point];
      const double s = 1 - t;
      const edge::Point at = s * s * s * p[0] + (3 * s * s * t) * p[1] + (3 * s * t * t) * p[2] + (t * t * t) * p[3];
      const edge::Point expected = other.at(i, t);
      CHECK(at.x == Approx(expected.x).margin(1e-9));
      CHECK(at.y == Approx(expected.y).margin(1e-9));
    }
}

} // namespace

TEST_CASE("a line through points goes through each of them, smoothly but at corners") {
  MeasuredPoints points = cap;
  points[4].corner = true;
  const edge::Curve curve = curve_of(through(points).path);
  REQUIRE(curve.pieces.size() == points.size() - 1);
  for (std::size_t i = 0; i < points.size(); ++i) {
    const edge::Point &at = i == 0 ? curve.points.front() : curve.points[3 * i];
    CHECK(at.x == points[i].x);
    CHECK(at.y == -points[i].y);
  }
  for (std::size_t i = 1; i + 1 < points.size(); ++i) {
    const double turn = edge::turn_between(curve.points[3 * i] - curve.points[3 * i - 1],
                                           curve.points[3 * i + 1] - curve.points[3 * i]);
    INFO(i);
    CHECK((std::abs(turn) < 1e-9) == (i != 4));
  }
}

TEST_CASE("between two corners next to each other a line through points is straight") {
  const MeasuredPoints square = {{0, 0, true}, {30, 0, true}, {30, 20, true}, {0, 20, true}};
  CHECK(length_through(square) == exactly(80));
  CHECK(length_through(square, true) == exactly(100));
  const edge::Curve curve = curve_of(through(square, true).path);
  CHECK(curve.closed);
  for (const edge::Piece &piece : curve.pieces)
    CHECK(piece.form == edge::Piece::Form::line);
  CHECK(length_through({{0, 0}, {3, 4}}) == exactly(5));
}

TEST_CASE("a line through points is the natural spline over the chords that GSL draws") {
  check_by(ByGsl(cap, gsl_interp_cspline), curve_of(through(cap).path));
}

TEST_CASE("a closed line through points is the periodic spline over the chords that GSL draws") {
  MeasuredPoints points = {{0, 0}, {40, -12}, {95, 10}, {80, 60}, {20, 55}};
  const edge::Curve curve = curve_of(through(points, true).path);
  points.push_back(points.front());
  check_by(ByGsl(points, gsl_interp_cspline_periodic), curve);
}

TEST_CASE("a closed line with one corner is the natural spline that begins and ends there, wherever it starts") {
  MeasuredPoints points = {{0, 0}, {40, -12}, {95, 10}, {80, 60}, {20, 55}};
  points[2].corner = true;
  MeasuredPoints from_corner = {points[2], points[3], points[4], points[0], points[1], points[2]};
  CHECK(length_through(points, true) == exactly(length_through(from_corner)));
}

TEST_CASE("points off a closed curve come near its length at the fourth power of the spacing") {
  for (const auto &[across, up] : {std::pair(100.0, 100.0), std::pair(120.0, 70.0)}) {
    const double length = across == up ? 2 * std::numbers::pi * across : perimeter(across, up);
    std::vector<double> errors;
    for (const int count : {16, 32, 64, 128})
      errors.push_back(length_through(ring(count, across, up), true) - length);
    INFO(across << " " << up << ": " << errors[0] << " " << errors[1] << " " << errors[2] << " " << errors[3]);
    CHECK(std::abs(errors[0]) < 1e-3 * length);
    CHECK(order(errors[1], errors[2]) == Approx(4).margin(0.15));
    CHECK(order(errors[2], errors[3]) == Approx(4).margin(0.15));
  }
}

TEST_CASE("points off an open arc come near its length at the third power of the spacing") {
  const auto on_circle = [](double angle) { return MeasuredPoint{100 * std::cos(angle), 100 * std::sin(angle)}; };
  std::vector<double> errors;
  for (const int parts : {16, 32, 64, 128})
    errors.push_back(length_through(sampled(parts + 1, 0, 2, on_circle)) - 200);
  INFO(errors[0] << " " << errors[1] << " " << errors[2] << " " << errors[3]);
  CHECK(std::abs(errors[0]) < 1e-3 * 200);
  CHECK(order(errors[1], errors[2]) == Approx(3).margin(0.2));
  CHECK(order(errors[2], errors[3]) == Approx(3).margin(0.2));
}

TEST_CASE("moving points by a little changes the length by no more than is said") {
  constexpr double step = 1e-4; // central differences: exact to its square
  for (const bool closed : {false, true})
    for (const bool corner : {false, true}) {
      MeasuredPoints points = closed ? ring(9, 90, 50) : cap;
      points[3].corner = corner;
      double by_differences = 0;
      for (MeasuredPoint &point : points) {
        std::array<double, 2> slope{};
        for (const std::size_t axis : {0U, 1U}) {
          double &coordinate = axis == 0 ? point.x : point.y;
          const double was = coordinate;
          coordinate = was + step;
          const double more = length_through(points, closed);
          coordinate = was - step;
          slope[axis] = (more - length_through(points, closed)) / (2 * step);
          coordinate = was;
        }
        by_differences += std::hypot(slope[0], slope[1]);
      }
      INFO(closed << corner);
      CHECK(through(points, closed).misread.mm == Approx(by_differences).epsilon(1e-5));
    }
  // A straight line's ends alone matter, by 1 mm each.
  CHECK(through({{0, 0}, {10, 0}, {30, 0}}).misread.mm == exactly(2));
}

TEST_CASE("there is no line through points of which two neighbours are the same, or that are too few or too far") {
  CHECK_FALSE(line_through(MeasuredPoints{}, false));
  CHECK_FALSE(line_through(MeasuredPoints{{1, 1}}, false));
  CHECK_FALSE(line_through(MeasuredPoints{{1, 1}, {1, 1}}, false));
  CHECK_FALSE(line_through(MeasuredPoints{{0, 0}, {9, 0}}, true));
  CHECK_FALSE(line_through(MeasuredPoints{{0, 0}, {9, 0}, {9, 9}, {0, 0}}, true));
  CHECK(line_through(MeasuredPoints{{0, 0}, {9, 0}, {9, 9}, {0, 0}}, false));
  CHECK_FALSE(line_through(MeasuredPoints{{0, 0}, {2e6, 0}}, false));
  CHECK_FALSE(line_through(MeasuredPoints{{0, 0}, {std::nan(""), 0}}, false));
}
