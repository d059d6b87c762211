// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string_view>

/// What stands between the tokens of a text that is known to be JSON with comments. Offsets are of bytes; none of these
/// reads past the end.
namespace gatherwright::page {

/// A space or a tab.
constexpr bool is_blank(char c) {
  return c == ' ' || c == '\t';
}

/// CR or LF.
constexpr bool is_line_end(char c) {
  return c == '\n' || c == '\r';
}

/// Whether a comment begins here.
constexpr bool comment_begins(std::string_view text, std::size_t at) {
  return text[at] == '/' && at + 1 < text.size() && (text[at + 1] == '/' || text[at + 1] == '*');
}

/// Past the comment that begins here; of one to the end of the line, at that line's end.
std::size_t past_comment(std::string_view text, std::size_t at);

/// Past the line end that stands here: CRLF, LF or CR.
std::size_t past_line_end(std::string_view text, std::size_t at);

/// Past the text in quotes that begins here.
std::size_t past_quotes(std::string_view text, std::size_t at);

/// Past blanks.
std::size_t past_blanks(std::string_view text, std::size_t at);

/// Past blanks, line ends and comments.
std::size_t past_gap(std::string_view text, std::size_t at);

/// Where the blanks before an offset begin.
std::size_t before_blanks(std::string_view text, std::size_t at);

/// Whether nothing but blanks stands before an offset on its line.
bool begins_line(std::string_view text, std::size_t at);

/// The line end that the text has: that of its first line.
std::string_view line_end_of(std::string_view text);

/// The blanks with which the line of an offset begins.
std::string_view indentation_at(std::string_view text, std::size_t at);

} // namespace gatherwright::page
