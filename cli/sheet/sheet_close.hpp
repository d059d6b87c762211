// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"
#include "cli/sheet/sheet_content.hpp"

namespace gatherwright::paper {

/// The worksheet on as few pages as it goes on: set smaller, and in two columns wherever that saves room. A join stands
/// on one page where a page holds it, and notes stand before the joins where they would have the last page to
/// themselves. The sheet must be of the job and its plan.
Document set_close(const Job &job, const Plan &plan, const Sheet &sheet, PaperSize size);

} // namespace gatherwright::paper
