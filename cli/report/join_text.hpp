// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/report/ink.hpp"
#include "cli/report/shown_marks.hpp"

#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <cstddef>
#include <string>

namespace gatherwright::report {

/// One join: what is sewn to what, how full each stretch is, the marks, how to run the gathers. Lines end in a line
/// feed. `room`: how many rows of marks may still be told, those told here taken off; what is left out is said.
std::string join_text(const Job &job, const Plan &plan, int join, const Ink &ink, std::size_t &room,
                      Pins pins = Pins::needed);

} // namespace gatherwright::report
