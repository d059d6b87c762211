// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>

/// The characters of a UTF-8 text.
namespace gatherwright::words {

struct Character {
  char32_t code = 0;
  std::size_t bytes = 1; ///< at least 1
  bool valid = true;     ///< false: the byte begins no well-formed sequence
};

/// The character that begins at byte `at` < text.size(). Overlong forms, surrogates and values past U+10FFFF are not
/// valid.
Character character_at(std::string_view text, std::size_t at);

} // namespace gatherwright::words
