// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"
#include "solver/plan/segments.hpp"

#include <span>

namespace gatherwright {

/// Places on both edges at `stations` even stations of the band, at least, and at every knot of its segments' spreads.
Profile profile_of(const JoinPlan &plan, std::span<const SegmentSpread> spreads, int stations);

} // namespace gatherwright
