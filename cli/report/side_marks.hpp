// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/report/shown_marks.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

/// The marks on a piece's sides, told in a line each.
namespace gatherwright::report {

/// Marks of one edge, one after the other, on one side of a piece. At least one.
struct SideRun {
  Side side;
  EdgeAt edge;
  std::vector<PieceMark> marks; ///< by their distance from the cut corner
};

/// Those of a piece, in the order of its sides, then by where they begin.
std::vector<SideRun> side_runs(const PiecePlan &piece);

/// What is told of a run, in place of all of it. Reference marks are always told, and so are the first and the last.
struct ToldMarks {
  struct Told {
    std::size_t mark = 0;             ///< of the run
    std::optional<std::size_t> parts; ///< so many equal parts lead to the mark told next
    std::optional<double> each;       ///< of these, where it takes a tape to find them; millimetres
  };
  std::vector<Told> told;
  bool half = false; ///< the rest is the same from the other end of the side
};

/// `length`: of the side, cut. Pins in more than four equal parts are left out where folding finds them, or each part
/// is whole steps of the tape; the second half is where it is the first from the other end and that saves anything.
ToldMarks told_marks(const Job &job, const Plan &plan, const SideRun &run, double length, Pins pins);

/// "1 start, 4 slit, then 8 equal parts to 49 end"; no full stop. Places are from the cut corner. `most`: how many
/// marks may be told; what is left out is said.
std::string marks_said(const Job &job, const Plan &plan, const SideRun &run, const ToldMarks &told, std::size_t most);

/// What is sewn to sides that are all marked alike.
struct SidesSaid {
  std::string where; ///< "front, left and right; back, left"
  std::string says;  ///< "sleeve into armhole, band: 1 shoulder seam, 4.8, 8.5 gathers end"; no full stop
};

/// Of all pieces, in their order. `most`: how many marks may be told in all.
std::vector<SidesSaid> sides_said(const Job &job, const Plan &plan, Pins pins, std::size_t most);

} // namespace gatherwright::report
