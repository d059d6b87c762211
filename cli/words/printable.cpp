// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/printable.hpp"

#include "gatherwright/text.hpp"

#include <fmt/format.h>

namespace gatherwright::words {

namespace {

bool turns_or_hides(char32_t code) {
  return code < 0x20 || (code >= 0x7f && code < 0xa0) || code == 0x61c || code == 0x200e || code == 0x200f ||
         (code >= 0x2028 && code <= 0x202e) || (code >= 0x2060 && code <= 0x206f) || code == 0xfeff;
}

} // namespace

std::string printable(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const Character character = character_at(text, at);
    if (!character.valid)
      out += fmt::format("\\x{:02x}", static_cast<unsigned char>(text[at]));
    else if (turns_or_hides(character.code))
      out += fmt::format("\\u{:04x}", static_cast<std::uint32_t>(character.code));
    else
      out += text.substr(at, character.bytes);
    at += character.bytes;
  }
  return out;
}

} // namespace gatherwright::words
