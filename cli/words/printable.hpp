// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace gatherwright::words {

/// Safe on any terminal and page: control characters, marks that turn the direction of writing and bytes that are no
/// UTF-8 stand as escapes.
std::string printable(std::string_view text);

} // namespace gatherwright::words
