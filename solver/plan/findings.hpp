// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"

#include <optional>

namespace gatherwright {

/// Whether a rule holds at these values of its sides: within 1e-9 of the sum of the absolute values of its terms,
/// `size`.
bool holds(Relation relation, double left, double right, double size);

/// What is wrong with a segment, where its verdict says that something is. What would do is for advice to say.
std::optional<Finding> finding_of(SegmentAt at, const SegmentPlan &segment);

} // namespace gatherwright
