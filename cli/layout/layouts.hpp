// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

namespace gatherwright::paper {

/// A plan's pieces on their cloths, as pages; none where nothing is laid. The plan must be of the job.
Document layouts(const Job &job, const Plan &plan, PaperSize size);

} // namespace gatherwright::paper
