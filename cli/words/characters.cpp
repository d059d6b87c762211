// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/characters.hpp"

#include <array>

namespace gatherwright::words {

Character character_at(std::string_view text, std::size_t at) {
  const auto lead = static_cast<unsigned char>(text[at]);
  if (lead < 0x80) return {lead, 1, true};
  const Character malformed{lead, 1, false};
  const std::size_t bytes = lead >= 0xf0 ? 4 : lead >= 0xe0 ? 3 : 2;
  if (lead < 0xc2 || lead > 0xf4 || at + bytes > text.size()) return malformed;
  auto code = static_cast<char32_t>(lead & (0xff >> (bytes + 1)));
  for (std::size_t next = 1; next < bytes; ++next) {
    const auto byte = static_cast<unsigned char>(text[at + next]);
    if ((byte & 0xc0) != 0x80) return malformed;
    code = (code << 6) | (byte & 0x3f);
  }
  constexpr std::array<char32_t, 5> least{0, 0, 0x80, 0x800, 0x10000};
  const bool surrogate = code >= 0xd800 && code <= 0xdfff;
  return code < least[bytes] || surrogate || code > 0x10ffff ? malformed : Character{code, bytes, true};
}

} // namespace gatherwright::words
