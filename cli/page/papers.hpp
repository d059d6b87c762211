// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/machine/beside.hpp"
#include "cli/page/body.hpp"
#include "cli/page/exchange.hpp"

namespace gatherwright::page {

/// What is printed or kept of a job's plan: the file that `plan` writes, of { "text", "paper", "form", "joins" }, of
/// which all but the text may be left out. Faults of the text, and that there is nothing to put on paper, are an
/// answer, { "faults" }. Throws BadBody.
Reply strips_file(const Body &body, const cli::Beside &beside);
Reply sheet_file(const Body &body, const cli::Beside &beside);
Reply layout_file(const Body &body, const cli::Beside &beside);

} // namespace gatherwright::page
