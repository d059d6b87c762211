// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "allot/scheme.hpp"
#include "optimum/solver.hpp"

#include <optional>
#include <span>

namespace gatherwright {

enum class WhichEdge { long_edge, band };

/// What one edge of a join alone would have to be for its segments to be within their limits, everything else as it is:
/// the nearest such length, or nothing where none would do. `unknowns`: the scheme's, as cut.
std::optional<double> edge_alone(const allot::Scheme &scheme, std::span<const double> unknowns, int join,
                                 WhichEdge edge, optimum::Solver &solver);

} // namespace gatherwright
