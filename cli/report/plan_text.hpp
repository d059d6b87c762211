// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/report/ink.hpp"
#include "cli/report/say.hpp"
#include "cli/report/shown_marks.hpp"

#include "gatherwright/job.hpp"
#include "gatherwright/plan.hpp"

#include <cstddef>
#include <string>
#include <string_view>

namespace gatherwright::report {

/// Widest line of any text: a terminal of 80 columns, and a printed page.
inline constexpr int text_width = 80;

/// What stands under a heading is set in by this.
inline constexpr std::string_view margin = "  ";

/// A sentence or more under a heading; nothing where there is none.
std::string paragraph(std::string_view text);

/// Rows of marks of all joins together: more than that is not read but searched, and is left to JSON.
inline constexpr std::size_t most_rows = 20'000;

/// A plan for someone at a table with pins in hand: the verdict and what to do about it, what to cut, a table of marks
/// for each join, notes and cautions. No line is wider than `text_width`. The plan must be of the job.
/// A long one goes to `say` in pieces, if that is there, and what is returned is its end.
std::string plan_text(const Job &job, const Plan &plan, const Ink &ink, const Say &say = {}, Pins pins = Pins::needed);

} // namespace gatherwright::report
