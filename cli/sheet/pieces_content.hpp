// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/sheet/filling.hpp"
#include "cli/sheet/sheet_content.hpp"

#include <optional>

namespace gatherwright::paper {

/// Nothing where the plan has no pieces. The plan must be of the job.
std::optional<PiecesSheet> pieces_sheet(const Job &job, const Plan &plan, Filling &filling);

} // namespace gatherwright::paper
