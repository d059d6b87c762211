// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace gatherwright::bench {

/// What the page asks at every touch, over the plan in memory and its JSON: without the sheet, and with every fragment
/// of it sent, as none is had. Both sides while a slide is held, so that neither looks for what would save cloth. The
/// requests are answered in this process: what a connection adds is not counted. `text`: a job within limits.
void page_ratios(const std::string &text);

} // namespace gatherwright::bench
