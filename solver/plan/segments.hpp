// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "spread/spread.hpp"

#include <optional>
#include <variant>

namespace gatherwright {

/// Limits hold within this share of themselves.
inline constexpr double limit_share = 1e-9;

/// A segment's long and band as solved, millimetres.
struct SolvedSegment {
  double long_length = 0;
  double band = 0;
};

/// The spread of a segment's fullness; a fault where its band is nothing or the wish does not fit it.
using SpreadOutcome = std::variant<spread::Spread, Fault>;
SpreadOutcome spread_of(const Segment &segment, const SolvedSegment &solved, const Limits &limits, const Tape &tape);

/// By the mean fullness.
Verdict verdict_of(Kind kind, const SolvedSegment &solved, const Limits &limits);

/// All of a segment's numbers but its places along the edges.
SegmentPlan segment_plan(const Join &join, const Segment &segment, const SolvedSegment &solved, const Limits &limits,
                         const spread::Spread &spread, const Tolerance &tolerance);

} // namespace gatherwright
