// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/strip/strip.hpp"

#include <vector>

/// A strip cut into parts that fit a page.
namespace gatherwright::paper {

/// Two parts that follow one another share so much of the strip, with a line across its middle to lay one on the other.
inline constexpr double overlap = 16;

struct Part {
  double from = 0; ///< along the edge, what is shown; an allowance before the first stitch lies below 0
  double to = 0;
  bool joins_before = false; ///< shares an overlap with the part before it
  bool joins_after = false;
  int times = 1;       ///< how often it is laid, or all parts of its group in turn, from mark to mark
  int marks_on = 0;    ///< of a part laid more than once: by how many the numbers go on each time
  int group_parts = 1; ///< of a part laid more than once: how many are laid in turn
};

/// The parts of a strip, in order, none longer than `room` (well above `overlap`). Where marks stand evenly over so
/// long a run that it saves two parts or more, what lies from one mark to another is to be laid again and again. None
/// where there would be more than `most_parts`, or the edge is no longer than 0.
std::vector<Part> parts_of(const Strip &strip, double room);

inline constexpr int most_parts = 200;

} // namespace gatherwright::paper
