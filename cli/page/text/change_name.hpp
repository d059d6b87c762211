// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/page/text/source.hpp"

namespace gatherwright::page {

/// What is at the pointer called otherwise, wherever its name stands; see change.hpp.
Outcome<std::string, Faults> with_name(std::string_view text, std::string_view pointer, std::string_view name);

} // namespace gatherwright::page
