// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string_view>

/// UTF-8 (Unicode 15, table 3-7), decoded in one place. Everything here accepts any bytes.
namespace gatherwright {

/// One code point and the bytes it takes.
struct Character {
  char32_t code = 0;     ///< U+FFFD where it is not valid
  std::size_t bytes = 0; ///< 0 at the end of the text, else at least 1
  bool valid = true;     ///< false: the byte begins no well-formed sequence
};

/// The character that begins at byte `at`. Overlong forms, surrogates and values above U+10FFFF are not valid.
///   1. Every code point is decoded as it was encoded.
///   2. Bytes that are no UTF-8 are told from those that are, as by another decoder.
///   3. At the end of a text there is no character.
Character character_at(std::string_view text, std::size_t at);

/// Whether all of it is UTF-8.
bool is_utf8(std::string_view text);

/// Whether all of it is printable ASCII, as most texts are: as many characters as bytes, and one column each.
bool is_printable_ascii(std::string_view text);

/// Its beginning, of at most so many bytes.
///   4. A text is clipped after a whole character.
std::string_view clipped(std::string_view text, std::size_t bytes);

/// Without the blanks, tabs and line ends round it, of every width.
std::string_view trimmed(std::string_view text);

} // namespace gatherwright
