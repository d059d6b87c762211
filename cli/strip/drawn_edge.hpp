// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "cli/strip/strip.hpp"

/// A drawn edge at true scale: its cut edge, its stitching line and the marks across both.
namespace gatherwright::paper {

struct EdgePicture {
  std::vector<Item> items; ///< from 0, 0 to the right and down
  double width = 0;
  double height = 0;
};

/// The plan of the join must hold the edge's outline. The mirrored piece's is seen as in a mirror. Nothing where it is
/// larger than `most_extent` millimetres either way or longer than `most_length`: so much paper is not laid together.
EdgePicture edge_picture(const Job &job, const JoinPlan &planned, int join, bool band, Pieces pieces);

inline constexpr double most_extent = 6000;
inline constexpr double most_length = 60000;

} // namespace gatherwright::paper
