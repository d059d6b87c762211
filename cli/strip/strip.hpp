// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <string>
#include <vector>

/// What a marking strip shows, before it is laid out. Lengths are millimetres along the edge from its first stitch.
namespace gatherwright::paper {

struct StripMark {
  double at = 0;
  int number = 0;
  std::string name;    ///< of a reference mark
  std::string reading; ///< off the tape
  bool reference = false;
};

/// From one mark to the next.
struct StripStretch {
  double from = 0;
  double to = 0;
  std::string worked; ///< "gathered"
  bool plain = false; ///< sewn length for length
};

/// One edge, straight, of one piece.
struct Strip {
  std::string title; ///< "Band: cuff, 23 cm; both pieces of a pair"
  std::string brief; ///< the same for a narrow place
  double length = 0;
  double before = 0; ///< allowances beyond the first and the last stitch
  double after = 0;
  std::string before_called; ///< "1 cm allowance"; empty where there is none
  std::string after_called;
  std::vector<StripMark> marks; ///< in order; a ring's first stands again at its end
  std::vector<StripStretch> stretches;
};

/// Which pieces a strip or a drawn edge is for.
enum class Pieces { all, first_of_pair, mirrored };

/// The edges of a join that are straight, each for the pieces that are marked alike: the band's first, then the long
/// edge's; the mirrored piece's own only where it is marked otherwise.
///
/// Marks stand at their places on the tape, not at their exact ones. The table gives the same places, so strip, table
/// and tape never disagree by that last step, whichever of them marks which edge. Only pins in equal parts, which the
/// table tells in one line, stand in parts that are equal. Of a join that reads alike, a strip shows the half that the
/// table does.
std::vector<Strip> strips_of(const Job &job, const JoinPlan &planned, int join);

/// The marks of one edge as a strip shows them; `marks` are the plan's, or those of its mirrored piece.
std::vector<StripMark> strip_marks(const Job &job, const Join &join, const JoinPlan &planned,
                                   const std::vector<Mark> &marks, MarkPlace Mark::*edge, bool half = false);

/// Whether the mirrored piece has this edge's marks at the same places and under the same names.
bool marked_alike(const Join &join, const JoinPlan &planned, MarkPlace Mark::*edge);

/// "Band: cuff, 23 cm", then which pieces it is for.
std::string edge_called(const Job &job, const Join &join, const JoinPlan &planned, bool band, Pieces pieces);

/// "make 2, a mirrored pair"; empty where one is made.
std::string made_in_words(const Join &join);

} // namespace gatherwright::paper
