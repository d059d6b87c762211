// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "cli/picture/piece_picture.hpp"
#include "gatherwright/id.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <vector>

/// Pictures of pieces in rows of two columns.
namespace gatherwright::paper {

/// A picture over both columns, or pictures in either, one below the other.
struct PieceRow {
  struct Shown {
    PieceId piece;
    Page picture;
  };
  std::vector<Shown> left;
  std::vector<Shown> right; ///< may be empty
  bool over_both = false;   ///< the left is one, as wide as both columns together

  double height() const;
};

/// A picture stands in one column where it tells every mark there. Two are beside each other in the order in which they
/// come; below the lower of them stand those after it that fit there.
std::vector<PieceRow> piece_rows(const Job &job, const Plan &plan, const std::vector<PieceId> &pieces, PieceRoom column,
                                 PieceRoom both);

} // namespace gatherwright::paper
