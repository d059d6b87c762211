// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/edge/plane.hpp"

#include <array>
#include <cstddef>
#include <vector>

namespace gatherwright::edge {

/// A cubic spline through points over the lengths of the chords between them: natural at its ends or, of a ring, whose
/// last point joins the first, periodic. Between neighbours it is one cubic.
class Spline {
public:
  /// At least two points, of a ring three; neighbours differ.
  Spline(std::vector<Point> points, bool ring);

  std::size_t chords() const { return chords_.size(); }

  /// The two control points of the cubic over a chord.
  std::array<Point, 2> controls(std::size_t chord) const;

  /// How the length of all of it changes as each point moves.
  std::vector<Point> length_gradient() const;

private:
  struct Chord {
    Point way; ///< of length 1
    double length = 0;
  };
  struct Slopes;

  std::size_t end_of(std::size_t chord) const { return (chord + 1) % points_.size(); }
  bool bends_at(std::size_t knot) const { return ring_ || (knot > 0 && knot + 1 < points_.size()); }
  std::vector<Point> solved(std::vector<Point> right) const;
  void add_slopes(std::size_t chord, Slopes &slopes) const;

  std::vector<Point> points_;
  bool ring_;
  std::vector<Chord> chords_;
  std::vector<Point> bends_; ///< second derivatives at the points
};

} // namespace gatherwright::edge
