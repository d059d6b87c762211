// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

/// Text set in columns of a terminal. Texts are UTF-8 without control characters; colour codes take no column.
namespace gatherwright::report {

/// Columns a text takes: none for accents that combine, two for wide East Asian characters, else one.
int columns(std::string_view text);

/// The text itself, or as much of its beginning as leaves room for an ellipsis, in at most `width` >= 1 columns.
std::string cut_to(std::string_view text, int width);

std::string left_aligned(std::string_view text, int width);

/// The text broken at spaces into lines of at most `width` columns, words longer than a line broken where they must be.
/// `first` begins the first line, `rest` every other; each line ends in a line feed. `width` > columns of either + 1.
std::string wrapped(std::string_view text, std::string_view first, std::string_view rest, int width);

} // namespace gatherwright::report
