// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/report/shown_marks.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <string>
#include <string_view>
#include <vector>

/// What a plan says of one join, sentence by sentence and without layout, for the text report and for paper alike.
/// `asked` is a join of the job, `planned` its plan.
namespace gatherwright::report {

/// "make 2, a mirrored pair"; empty where one is made.
std::string made(const Join &asked);

/// "cuff, 22 cm", or just "22 cm" where the edge has no name.
std::string edge_said(const Job &job, const Edge &asked, double mm);

/// "below the line as drawn".
std::string_view lies(GarmentSide side);

/// "Long edge: sleeve, 52 cm. Band: cuff, 22 cm. Plain parts included, it is 2.36 to 1." Of the first join the band is
/// explained; of a drawn edge the side of it that was taken for the garment.
std::string edges(const Job &job, int join, const JoinPlan &planned);

/// How each stretch is worked and how full it comes out, those that come out alike together. Where all have the same
/// limits, the last sentence gives them.
struct StretchesSaid {
  std::vector<std::string> stretches;
  std::string in_this_cloth; ///< may be empty
};
StretchesSaid stretches(const Job &job, const Join &asked, const JoinPlan &planned);

/// Whether the join before has the same limits for all, so that whoever reads on has read them.
bool limits_are_as_before(const Job &job, const Plan &plan, int join);

/// Where it is fullest, how full it is there, and what is the most that sits well there; empty where all is plain:
/// "Fullest: front half and back half, 2.45 to 1; up to 2.70 sits well."
std::string fullest(const Join &asked, const JoinPlan &planned);

/// Of a ring, where its last mark leads; else empty, and where the other half or equal parts say it.
std::string back_to_start(const Job &job, const Join &asked, const JoinPlan &planned, Pins told);

/// What to add where marks are measured from the cut end; empty where there is nothing to add.
std::string from_cut_edges(const Job &job, const std::vector<Mark> &marks);

/// The marks of the piece worked from the other end, where it is.
struct MirroredSaid {
  std::string says;       ///< empty where no piece is mirrored
  bool elsewhere = false; ///< its marks lie elsewhere and want a table of their own, which `says` leads to
};
MirroredSaid mirrored(const Join &asked, const JoinPlan &planned);

/// "4 mm and 8 mm from the cut edge (6 mm and 2 mm from the stitching line)"; "inside" that where they lie beyond it.
std::string row_places(const Job &job, const GatheringPlan &rows);

/// Whether the rows are run as those of the join before, which tells them.
bool rows_are_as_before(const Job &job, const Plan &plan, int join);

/// Rows and thread, or the cord, or both.
std::vector<std::string> gathering(const Job &job, const Join &asked, const JoinPlan &planned,
                                   bool rows_as_before = false);

std::string pins(const Join &asked, const JoinPlan &planned);

} // namespace gatherwright::report
