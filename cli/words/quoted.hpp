// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

/// Pieces of what was typed, as fit for a message.
namespace gatherwright::cli {

/// The text in double quotes, cut short where it is long.
std::string quoted(std::string_view text);

/// Where a text of UTF-8 may be cut so that at most `bytes` remain.
std::string_view clipped(std::string_view text, std::size_t bytes);

/// One line for a fault of an option or argument. Control characters are escaped.
std::string option_fault(std::string_view option, std::string_view what, std::string_view instead);

} // namespace gatherwright::cli
