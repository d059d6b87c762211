// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/cutting.hpp"
#include "gatherwright/plan.hpp"

#include <span>
#include <string>

namespace gatherwright::paper {

/// A plan's pieces on their cloths, as pages; none where nothing is laid. The plan must be of the job.
Document layouts(const Job &job, const Plan &plan, PaperSize size);

/// The pieces of many wearers on one bolt of each cloth, likewise.
Document layouts(const Job &job, std::span<const ClothPlan> cloths, std::span<const WearersPieces> pieces,
                 std::span<const std::string> wearers, PaperSize size);

} // namespace gatherwright::paper
