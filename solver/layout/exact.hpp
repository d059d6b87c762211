// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/bound.hpp"
#include "solver/layout/strip.hpp"
#include "solver/layout/tree.hpp"

namespace gatherwright::layout {

struct Exactly {
  enum class Answer {
    found,     ///< `tree` is the shortest layout there is
    none,      ///< no layout is as short as that
    not_known, ///< too many kinds or copies to be told apart, or the allowance is spent
  };
  Answer answer = Answer::not_known;
  Tree tree;
};

/// The shortest layout of all, if there is one of that length or less.
///
/// Of every choice of rectangles the least boxes that it fills are found, from those of its parts: as many as are
/// neither wider nor longer than another. A box is dropped where what it leaves empty is more than a layout of the
/// target's length may leave empty, in area or by the prices of bars, either way: beside a box, and behind it, there is
/// room for no more than a reachable sum.
Exactly shortest_within(const Strip &strip, Ticks target, const Bounds &bounds, Allowance &allowance);

} // namespace gatherwright::layout
