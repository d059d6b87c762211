// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/report/ink.hpp"
#include "cli/report/shown_marks.hpp"

#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <string>

namespace gatherwright::report {

/// What is cut: the sizes of the pieces, what is sewn to their sides with its marks, how much cloth it takes. It begins
/// with an empty line, and every line ends in a line feed. Empty where the plan has no pieces. The plan must be of the
/// job.
std::string pieces_text(const Job &job, const Plan &plan, const Ink &ink, Pins pins = Pins::needed);

} // namespace gatherwright::report
