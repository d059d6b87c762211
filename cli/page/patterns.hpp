// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace gatherwright::page {

/// How each way of working a stretch looks on the sheet, as JSON: by its name in a job an SVG element, which is only
/// looked at.
std::string patterns_answer();

} // namespace gatherwright::page
