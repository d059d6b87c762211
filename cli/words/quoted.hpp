// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/text.hpp"

#include <string>
#include <string_view>

/// Pieces of what was typed, as fit for a message.
namespace gatherwright::cli {

/// The text in double quotes, cut short where it is long.
std::string quoted(std::string_view text);

/// One line for a fault of an option or argument. Control characters are escaped.
std::string option_fault(std::string_view option, std::string_view what, std::string_view instead);

} // namespace gatherwright::cli
