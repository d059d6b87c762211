// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <optional>
#include <vector>

/// Marking strips: paper with the marks on it at true size, to lay along an edge and mark it from.
namespace gatherwright::paper {

/// For each join the strips of its straight edges and the drawn ones as they are drawn. The plan must be of the job,
/// made with outlines where it has drawn edges. No pages where the rules conflict, since there are no joins then.
/// `only`: of these joins alone, in the job's order.
Document strips(const Job &job, const Plan &plan, PaperSize size,
                const std::optional<std::vector<JoinId>> &only = std::nullopt);

} // namespace gatherwright::paper
