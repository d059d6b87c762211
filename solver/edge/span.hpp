// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/edge/curve.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

/// A curve measured: cut into spans that turn little and whose lengths are known.
namespace gatherwright::edge {

/// A stretch of one piece over which the tangent turns by at most a right angle, without a cusp inside.
struct Span {
  std::uint32_t piece = 0;
  double from = 0; ///< the piece's own parameter, 0 to 1
  double to = 1;
  double start = 0; ///< length of the curve before it
  double length = 0;
};

/// Cuts a curve into spans, in order. Lengths are exact for lines and circles and within 1e-10 of the piece's length
/// otherwise: Gauss quadrature of the speed over parts that are far enough from the places, real or complex, where the
/// speed is 0, cut at cusps and halved towards near ones.
std::vector<Span> measure(const Curve &curve);

/// Up to two parameters, rising.
struct Places {
  std::array<double, 2> at{};
  std::size_t count = 0;
  const double *begin() const { return at.data(); }
  const double *end() const { return at.data() + count; }
};

/// A span unpacked for evaluation, in its own parameter from 0 to 1. Tangents are the limits from inside where the
/// speed is 0.
class Shape {
public:
  Shape(const Curve &curve, const Span &span);

  Point at(double t) const;
  Point velocity(double t) const;
  Point acceleration(double t) const;

  /// Direction of travel, not 0 and of any length.
  Point heading(double t) const;

  /// Direction of travel, of length 1.
  Point tangent(double t) const { return unit(heading(t)); }

  struct Travel {
    Point velocity;
    double speed = 0;
    /// How fast the tangent turns, radians to the parameter, to the right above 0: speed times curvature, finite also
    /// where the speed is 0 and the curvature is not.
    double turn_rate = 0;
  };
  Travel travel(double t) const;

  /// Length of the curve between two parameters, below 0 where they fall.
  double length(double from, double to) const;

  /// The turn of the tangent between two parameters, radians, to the right above 0.
  double turn(double from, double to) const;

  /// Parameters between 0 and 1 at which the curve travels along `direction` or against it; at most two.
  Places parallels(Point direction) const;

  /// Parameters between 0 and 1 at which the curve stops turning one way and starts to turn the other; at most two.
  Places inflections() const;

  /// Whether the direction of travel is less than a right angle from `ahead` all along.
  bool heads(Point ahead) const;

  bool straight() const { return form_ == Piece::Form::line; }

  /// A circle or a line: length and turn are proportional to the parameter.
  bool uniform() const { return form_ != Piece::Form::cubic && round_; }

  bool cubic() const { return form_ == Piece::Form::cubic; }

  /// Of a cubic: the control vectors of its velocity; between two parameters, rescaled to one from 0 to 1.
  const std::array<Point, 3> &velocities() const { return velocity_; }
  std::array<Point, 3> velocities(double from, double to) const;

  /// Two directions, the first to the left of the second, that the tangent stays between; within a right angle.
  std::array<Point, 2> directions(double from, double to) const;

private:
  double angle(double t) const { return start_ + t * sweep_; }

  Piece::Form form_ = Piece::Form::line;
  bool round_ = true;
  Point first_;                   ///< first point; of an arc the centre
  std::array<Point, 3> velocity_; ///< of a line the first alone; of an arc its half-axes
  double start_ = 0;              ///< of an arc: angle at 0, and to 1
  double sweep_ = 0;
};

} // namespace gatherwright::edge
