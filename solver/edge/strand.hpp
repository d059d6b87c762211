// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/edge/span.hpp"

#include <cstdint>
#include <span>
#include <utility>
#include <vector>

/// A measured curve moved sideways, before it is trimmed.
namespace gatherwright::edge {

/// A span moved sideways by `shift`, to the right of travel above 0.
struct Moved {
  Shape shape;
  double shift = 0;

  Point at(double t) const;

  struct Motion {
    Point at;
    Point velocity; ///< along the tangent; backwards where the curve is tighter than the shift
  };
  Motion motion(double t) const;

  double speed(double t) const { return speed(shape.travel(t)); }
  double speed(const Shape::Travel &travel) const { return travel.speed - shift * travel.turn_rate; }

  /// Length of the moved curve between two parameters, those parts counted negative where it runs backwards.
  double length(double from, double to) const { return shape.length(from, to) - shift * shape.turn(from, to); }

  struct Foot {
    double parameter = 0;
    double along = 0; ///< length of the curve not moved, from where the search began
  };

  /// Where `length(from, parameter)` is `target`, for a part from `from` to `to` of length `whole` that does not run
  /// backwards, and 0 <= target <= whole. Newton's method kept in a bracket.
  Foot foot(double from, double to, double whole, double target) const;
};

/// A part of a span moved sideways, with straight leads along its end tangents to where it meets its neighbours round a
/// corner that opens away from the shift. Its own coordinate u is the length from the beginning of `lead_in`.
struct Stretch {
  std::uint32_t span = 0;
  bool apart = false;  ///< does not begin where the one before ends: a corner or cusp not resolved here
  bool folded = false; ///< the curve is tighter than the shift: the stretch runs backwards
  double from = 0;     ///< of the span's parameter
  double to = 1;
  double lead_in = 0;
  double body = 0; ///< length of the moved part, below 0 where it runs backwards
  double lead_out = 0;
  double first = 0; ///< of u: the window that is left once trimmed
  double last = 0;
  double start = 0; ///< length of all windows before it
};

/// Where a point of a stretch stands.
struct Station {
  Point at;
  Point tangent;        ///< of the curve at the foot, direction of travel
  double parameter = 0; ///< of the foot, in the span's parameter
  double along = 0;     ///< length of the curve from the stretch's beginning to the foot
};

/// All stretches of a moved curve, in order, each corner resolved where its two neighbours suffice: extended to the
/// meeting point of the tangents where it opens, cut back to where the neighbours cross where it closes.
class Strand {
public:
  Strand(const Curve &curve, std::span<const Span> spans, double shift);

  const std::vector<Stretch> &stretches() const { return stretches_; }
  Moved moved(const Stretch &stretch) const { return {Shape(*curve_, spans_[stretch.span]), shift_}; }
  /// How far along the curve the foot of a stretch's place u lies.
  double foot(const Stretch &stretch, double u) const;

  /// The same strand with only these windows of its stretches left.
  Strand keeping(std::vector<Stretch> stretches) const;

  double shift() const { return shift_; }
  bool closed() const { return closed_; }

  /// Whether the last stretch may touch the first: the curve is closed, or ends where it begins.
  bool meets_itself() const { return meets_itself_; }

  /// Length of all windows.
  double length() const { return length_; }

  /// Distances that rounding cannot tell from 0.
  double touch() const { return touch_; }

  /// Any stretch is folded or apart: the strand must be trimmed.
  bool broken() const { return broken_; }

  /// The curve travels less than a right angle off the straight way from its first point to its last all along. Then it
  /// crosses itself nowhere, and a strand of it that is not broken crosses neither itself nor its curve: both keep to
  /// that way, and a curve nowhere tighter than the shift would have to turn by more to come back that near.
  bool keeps_on() const { return keeps_on_; }

  /// The area the curve encloses, above 0 where it runs clockwise.
  double enclosed() const { return enclosed_area(*curve_); }

  /// The windows, to be taken over.
  std::vector<Stretch> release() && { return std::move(stretches_); }

private:
  void split(std::uint32_t span, const Shape &shape);
  void add(std::uint32_t span, double from, double to, double body, bool folded);
  void join(std::size_t before, std::size_t after, const Shape &one, const Shape &other);
  void cut_back(Stretch &before, Stretch &after, double corner);
  void unfold_start();
  void unfold_end();
  void finish();

  const Curve *curve_;
  std::span<const Span> spans_;
  double shift_;
  bool closed_;
  bool meets_itself_;
  bool broken_ = false;
  bool keeps_on_ = false;
  double touch_ = 0;
  double length_ = 0;
  std::vector<Stretch> stretches_;
};

/// The station at u, first <= u <= last, of a stretch that is not folded.
Station station(const Moved &moved, const Stretch &stretch, double u);

/// Length of the whole curve up to the foot of a station on a stretch of this span.
double foot_of(const Moved &moved, const Stretch &stretch, const Station &station, const Span &span);

/// The coordinate u of a parameter from `stretch.from` to `stretch.to`.
double coordinate(const Moved &moved, const Stretch &stretch, double parameter);

} // namespace gatherwright::edge
