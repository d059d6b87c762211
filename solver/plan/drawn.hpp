// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"
#include "solver/allot/scheme.hpp"
#include "solver/edge/drawn.hpp"

#include <optional>
#include <vector>

namespace gatherwright {

/// The drawn edges of one join, where it has any.
struct DrawnSides {
  std::optional<edge::DrawnLine> long_edge;
  std::optional<edge::DrawnLine> band;
};

/// Per join; empty where no edge of the job is drawn.
using DrawnEdges = std::vector<DrawnSides>;

/// Draws every drawn edge of a job. Refusals: what is wrong with a path or its allowance, and a path that is closed
/// where its join is not, or the reverse.
Outcome<DrawnEdges, Refusals> draw_edges(const Job &job);

/// Whether the edges have the allowances and the parts of a settled job: one that is a formula may come to another.
bool drawn_as_asked(const Job &job, const DrawnEdges &edges);

/// The same edges for a job whose plain stretches may come to be eased, with their shear reckoned once where it is not
/// yet; where it would take too long it is left out.
DrawnEdges ready_to_ease(const Job &job, const DrawnEdges &edges);

/// A drawn edge as a plan holds it.
DrawnPlan drawn_edge(const DrawnEdge &drawn, const edge::DrawnLine &line, bool with_outline);

/// What the allotment needs of them.
std::vector<allot::DrawnLengths> lengths_of(const DrawnEdges &edges);

} // namespace gatherwright
