// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/outcome.hpp"
#include "solver/edge/strand.hpp"

#include <functional>
#include <vector>

namespace gatherwright::edge {

/// Why a curve has no line beside it at the distance asked for, and how far along the curve.
struct Unresolved {
  enum class Kind {
    meets_itself, ///< the curve crosses or touches itself
    too_tight,    ///< bends or turns more tightly than the distance allows
    doubles_back, ///< turns right round, and the line would have to go round the tip
    falls_apart,  ///< the line would come in pieces
    runs_across,  ///< the line runs over itself or the curve
    nothing_left, ///< no line is left
    too_tangled,  ///< more crossings than a drawn edge has
  };
  Kind kind = Kind::too_tight;
  double along = 0; ///< length along the curve, where that says anything

  friend bool operator==(const Unresolved &, const Unresolved &) = default;
};

/// What is left of a strand once the parts nearer to its curve than the shift are cut off at the places where it
/// crosses itself: windows in order, their `start` counted anew. An open strand keeps both its ends; a closed one
/// begins at the place that stands for the curve's first point. `unmoved` makes the strand of the same curve not moved,
/// wanted only where the answer is not plain.
Outcome<std::vector<Stretch>, Unresolved> trim(Strand &&strand, const std::function<Strand()> &unmoved);

} // namespace gatherwright::edge
