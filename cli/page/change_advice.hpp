// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/page/source.hpp"

namespace gatherwright::page {

/// The job with what a remedy of its plan says, by its number; see change.hpp.
Outcome<std::string, Faults> with_remedy(std::string_view text, int number);

} // namespace gatherwright::page
