// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/problem.hpp"

#include <optional>

namespace layout_sets {

/// The length of the shortest layout, by GLPK's branch and cut on a mixed-integer model of edge-to-edge cuts: of every
/// choice of rectangles, whether it is cut out as one part, how that is divided in two, and how wide and long it is.
/// Nothing where GLPK does not end with a proved optimum. For a few rectangles only: the model grows as three to their
/// number.
std::optional<double> shortest_by_glpk(const gatherwright::layout::Problem &problem);

} // namespace layout_sets
