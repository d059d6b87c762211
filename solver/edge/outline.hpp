// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/edge/stitching.hpp"

#include <vector>

namespace gatherwright::edge {

/// Points of a stitching line and of its cut edge between two lengths along each, in order: joined by straight lines
/// they keep within `within` > 0 of it (in the unit it is drawn in), unless that would take more than some thousand
/// points to a piece of the drawing. The first and the last point are the line's own.
std::vector<Point> stitching_points(const StitchingLine &line, double from, double to, double within);
std::vector<Point> cut_edge_points(const StitchingLine &line, double from, double to, double within);

} // namespace gatherwright::edge
