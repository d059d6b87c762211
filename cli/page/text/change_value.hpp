// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/page/text/source.hpp"

/// Values set, put in, taken away and moved; see change.hpp.
namespace gatherwright::page {

using Changed = Outcome<std::string, Faults>;

Changed with_value(std::string_view text, std::string_view pointer, std::string_view json);
Changed with_inserted(std::string_view text, std::string_view pointer, std::string_view json);
Changed with_removed(std::string_view text, std::string_view pointer);
Changed with_moved(std::string_view text, std::string_view pointer, int place);

} // namespace gatherwright::page
