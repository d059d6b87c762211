// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <vector>

/// Where the words of marks go below them, so that none lies on another.
namespace gatherwright::paper {

/// One mark's words, to be set beside a line that leads down from it.
struct Flag {
  double at = 0;    ///< of the mark; never falling from one flag to the next
  double width = 0; ///< room for its words, to one side of the line
  double brief = 0; ///< room for the least of them
};

struct Place {
  int row = -1;         ///< from 0 at the top; -1: there is no room for it
  bool brief = false;   ///< there is room for the least of its words only
  bool to_left = false; ///< set to the left of its line
  bool crossed = false; ///< another's line may run behind it
};

/// Words go to the right of their line, at the end of the paper to the left. Each flag takes the first row in which it
/// lies on no other flag, on no other's line and its own line on no other flag; where there is none, the first in which
/// it lies on no other flag; the same with the least of its words, before it gives up its place. `end` is where the
/// paper ends on the right, `most_rows` > 0.
std::vector<Place> places(std::span<const Flag> flags, double end, int most_rows);

} // namespace gatherwright::paper
