// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/plan.hpp"

#include <optional>
#include <vector>

/// Marks measured from the cut edge, as against from the seam.
namespace gatherwright::report {

/// The one distance of every mark's `cut` from its `tape`, or nothing where it varies, as along a curve.
std::optional<double> cut_from_tape(const std::vector<Mark> &marks, MarkPlace Mark::*edge);

/// Whether marks are measured from the cut edge and each lies at a distance of its own, as along a curve.
bool cut_varies(const std::vector<Mark> &marks, MarkPlace Mark::*edge);

} // namespace gatherwright::report
