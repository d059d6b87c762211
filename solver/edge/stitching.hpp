// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/outcome.hpp"
#include "solver/edge/curve.hpp"
#include "solver/edge/strand.hpp"
#include "solver/edge/trim.hpp"

#include <optional>
#include <vector>

namespace gatherwright::edge {

/// On which side of the line of travel, as seen on the page, the garment lies.
enum class Side { left, right };

/// The side of a closed curve that lies inside it, or nothing where it encloses nothing.
std::optional<Side> inner_side(const Curve &curve);

/// The line of stitches beside a cut edge, `allowance` away from it towards the garment. Lengths are in the unit the
/// curve is drawn in.
///  1. Along a smooth stretch that turns by phi towards the garment, nowhere more tightly than the allowance, the line
///  is
///     allowance * phi shorter than the edge.
///  2. Round a corner that opens towards the garment both neighbours run on straight until they meet; at one that
///  closes they
///     end where they cross. What is tighter than the allowance folds over and is cut off where the line crosses
///     itself.
///  3. An open line runs from beside the edge's first point to beside its last; a closed one starts beside its first.
///  4. With no allowance it is the edge itself, which may then cross itself too.
class StitchingLine {
public:
  /// `allowance` >= 0 and finite; the curve as `read_path` gives it, of some length.
  static Outcome<StitchingLine, Unresolved> beside(Curve curve, double allowance, Side garment);

  std::size_t pieces() const { return curve_.pieces.size(); } ///< of the curve
  double cut_edge() const { return cut_edge_; }
  double length() const { return length_; }
  bool closed() const { return curve_.closed; }

  struct Place {
    Point at;
    Point normal;   ///< unit, towards the cut edge
    double cut = 0; ///< length along the cut edge of the foot of the normal; of the corner itself round an open one
  };

  /// The place at a length y along the line, 0 <= y <= length(); beyond it the end's. At a corner, that of what
  /// follows.
  Place place(double y) const;

  /// A part of the line with one foot on one span, for what is summed along it: integrals over the angle of the
  /// tangent.
  struct Run {
    double start = 0; ///< along the line
    double length = 0;
    double from = 0; ///< parameters of `moved` at its ends; equal where it runs straight on round a corner
    double to = 0;
    Moved moved;
    std::size_t stretch = 0;   ///< that it is a run of
    bool whole_turned = false; ///< all that is on the line of the part of that stretch that goes along the curve
  };

  /// The spans of the cut edge itself, in order, as runs along it.
  std::vector<Run> cut_edge_runs() const;

  /// The runs between two lengths along the line, in order.
  std::vector<Run> runs(double from, double to) const;

private:
  StitchingLine(Curve curve, std::vector<Span> spans, double shift)
      : curve_(std::move(curve)), spans_(std::move(spans)), shift_(shift) {}

  std::size_t count() const;
  Stretch stretch(std::size_t i) const;
  std::size_t stretch_at(double y) const;
  Moved moved(const Stretch &stretch) const { return {Shape(curve_, spans_[stretch.span]), shift_}; }

  Curve curve_;
  std::vector<Span> spans_;
  double shift_;                   ///< to the right above 0
  double side_ = 1;                ///< 1: the garment lies to the right
  std::vector<Stretch> stretches_; ///< none where there is no shift: the spans then stand for themselves
  double cut_edge_ = 0;
  double length_ = 0;
};

} // namespace gatherwright::edge
