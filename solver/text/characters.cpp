// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/text.hpp"

#include <algorithm>
#include <utility>

namespace gatherwright {

namespace {

constexpr Character malformed{0xFFFD, 1, false};

/// The bytes that a lead byte promises, and the least code point that needs as many; 0 for no lead byte.
std::pair<std::size_t, char32_t> promised(unsigned char lead) {
  if (lead < 0x80) return {1, 0};
  if (lead >= 0xC2 && lead < 0xE0) return {2, 0x80};
  if (lead >= 0xE0 && lead < 0xF0) return {3, 0x800};
  if (lead >= 0xF0 && lead < 0xF5) return {4, 0x10000};
  return {0, 0};
}

bool follows(char byte) {
  return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U;
}

} // namespace

Character character_at(std::string_view text, std::size_t at) {
  if (at >= text.size()) return {};
  const auto lead = static_cast<unsigned char>(text[at]);
  const auto [bytes, least] = promised(lead);
  if (bytes == 1) return {lead, 1};
  if (bytes == 0 || text.size() - at < bytes) return malformed;
  char32_t code = lead & (0x7FU >> bytes);
  for (std::size_t k = 1; k < bytes; ++k) {
    if (!follows(text[at + k])) return malformed;
    code = (code << 6) | (static_cast<unsigned char>(text[at + k]) & 0x3FU);
  }
  if (code < least || code > 0x10FFFF || (code >= 0xD800 && code < 0xE000)) return malformed;
  return {code, bytes};
}

bool is_utf8(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    if (static_cast<unsigned char>(text[at]) < 0x80) { // most of every text
      ++at;
      continue;
    }
    const Character character = character_at(text, at);
    if (!character.valid) return false;
    at += character.bytes;
  }
  return true;
}

bool is_printable_ascii(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return c >= ' ' && c <= '~'; });
}

std::string_view clipped(std::string_view text, std::size_t bytes) {
  if (text.size() <= bytes) return text;
  while (bytes > 0 && follows(text[bytes]))
    --bytes;
  return text.substr(0, bytes);
}

} // namespace gatherwright
