// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/bound.hpp"
#include "solver/layout/strip.hpp"
#include "solver/layout/tree.hpp"

namespace gatherwright::layout {

struct Exactly {
  enum class Answer {
    found,     ///< `tree` is a layout of that length or less
    none,      ///< no layout is as short as that
    not_known, ///< too many kinds or copies to be told apart, or the allowance is spent
  };
  Answer answer = Answer::not_known;
  Tree tree;
};

/// Whether there is a layout of that length or less.
///
/// Every layout has a box of half of the rectangles or more that is joined of two of fewer than half of them. So of
/// every choice of up to half of the rectangles the least boxes that it fills are found, from those of its parts; of
/// every choice of up to half of them the largest boxes that it can leave free for all others, from what smaller
/// choices leave and the boxes that are laid there; and last, whether two boxes joined find room in what the rest
/// leaves.
///
/// A box is dropped where what it leaves empty is more than a layout of the target's length may leave empty, in area or
/// by the prices of bars, either way: beside a box, and behind it, there is room for no more than a reachable sum. Room
/// is dropped where it is too small for the others, by the same.
Exactly layout_within(const Strip &strip, Ticks target, const Bounds &bounds, Allowance &allowance);

} // namespace gatherwright::layout
