// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/text.hpp"

#include <cstddef>
#include <string>
#include <string_view>

/// Reading and showing text: code points, names, excerpts for faults. Everything here accepts any bytes.
namespace gatherwright::quantity {

bool is_digit(char32_t code); ///< 0 to 9
bool is_space(char32_t code); ///< blanks of every width, no-break spaces, tabs and line ends
bool is_dash(char32_t code);  ///< hyphen, minus and the dashes that word processors put for them
bool begins_name(char32_t code);
bool continues_name(char32_t code);

/// The first place at or after `at` that is no space.
std::size_t past_spaces(std::string_view text, std::size_t at);

/// The end of the digits at `at`, or `at`.
std::size_t past_digits(std::string_view text, std::size_t at);

/// The end of the name that begins at `at`, or `at` where none does.
std::size_t past_word(std::string_view text, std::size_t at);

/// A piece of the input to be shown in a fault: on one line, control and direction characters as U+FFFD, and no longer
/// than 60 code points.
std::string excerpt(std::string_view text);

/// The same between quotation marks.
std::string quoted(std::string_view text);

} // namespace gatherwright::quantity
