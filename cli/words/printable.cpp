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

/// Of ASCII, and seen: most of every text.
bool is_plain(char byte) {
  return byte >= 0x20 && byte < 0x7f;
}

} // namespace

std::string printable(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    std::size_t plain = at;
    while (plain < text.size() && is_plain(text[plain]))
      ++plain;
    out += text.substr(at, plain - at);
    at = plain;
    if (at == text.size()) break;
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
