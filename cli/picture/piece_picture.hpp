// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "gatherwright/id.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

namespace gatherwright::paper {

enum class PieceShown { first, mirrored };

/// Whether the picture explains its signs, or that is done beside it.
enum class Signs { explained, explained_elsewhere };

/// Millimetres. A piece is drawn no more than 110 high.
struct PieceRoom {
  double width = 0;
  double highest = 0; ///< if the labels leave so much, without what explains the signs
};

/// A piece as it lies face up, to a scale that is shown and no larger than life, as wide as there is room and as high
/// as it takes: the cut edges, seam lines dashed, the warp, along each side what is sewn to it, and its marks with how
/// far they are from the cut corner at which the side starts. Named marks have their names; where a side has no room
/// for all, pins go without a distance first, and a right side that is marked as the left says so. The label says in
/// words what it shows. The plan must be of the job and have the piece; what is shown mirrored must have
/// `marks_mirrored`.
Page piece_picture(const Job &job, const Plan &plan, PieceId piece, PieceShown shown, PieceRoom room,
                   Signs signs = Signs::explained);

/// Whether that picture has room for the distance of every mark, and for every name whole.
bool tells_every_mark(const Job &job, const Plan &plan, PieceId piece, PieceShown shown, PieceRoom room);

} // namespace gatherwright::paper
