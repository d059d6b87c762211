// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/page/text/edit.hpp"

namespace gatherwright::page {

/// A value as it is to stand in a job: one that comes without blanks is laid out as jobs are, on one line where that is
/// not long, else with a line for each of its members; any other is as it is written. What stands before and behind it
/// is left out.
std::string laid_out(const Source &value, const Room &room);

} // namespace gatherwright::page
