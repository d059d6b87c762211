// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/text/script.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace gatherwright::quantity {
namespace {

constexpr char32_t replacement = 0xFFFD;
constexpr std::size_t longest_excerpt = 60;

using Range = std::pair<char32_t, char32_t>;

// Above ASCII every code point counts as a letter but these: spaces, punctuation, fractions, primes, symbols, private
// use. A whole table of letters would be longer and out of date sooner; what matters is that every script can name a
// length and that nothing a person may mean as a sign of arithmetic is taken into a name.
constexpr std::array<Range, 27> no_letters{
    {{0x80, 0xA9},     {0xAB, 0xB4},     {0xB6, 0xB9},      {0xBB, 0xBF},     {0xD7, 0xD7},     {0xF7, 0xF7},
     {0x37E, 0x37E},   {0x5BE, 0x5BE},   {0x60C, 0x60C},    {0x61B, 0x61F},   {0x66A, 0x66D},   {0x964, 0x965},
     {0x1680, 0x1680}, {0x2000, 0x2BFF}, {0x2E00, 0x2E7F},  {0x3000, 0x3004}, {0x3008, 0x3020}, {0x3030, 0x3030},
     {0xD800, 0xF8FF}, {0xFD3E, 0xFD3F}, {0xFE00, 0xFE6F},  {0xFEFF, 0xFEFF}, {0xFF00, 0xFF20}, {0xFF3B, 0xFF40},
     {0xFF5B, 0xFF65}, {0xFFE0, 0xFFFF}, {0x1F000, 0x1FAFF}}};

// Accents set after their letter, and the digits of other scripts: within a name, not at its head.
constexpr std::array<Range, 4> only_within{{{0x300, 0x36F}, {0x660, 0x669}, {0x6F0, 0x6F9}, {0x966, 0x96F}}};

template <std::size_t count> bool among(const std::array<Range, count> &ranges, char32_t code) {
  return std::any_of(ranges.begin(), ranges.end(),
                     [code](const Range &range) { return code >= range.first && code <= range.second; });
}

bool is_ascii_letter(char32_t code) {
  return (code >= 'a' && code <= 'z') || (code >= 'A' && code <= 'Z');
}

// Characters that would break a fault's single line or turn its direction.
bool is_unfit_to_show(char32_t code) {
  return code < 0x20 || (code >= 0x7F && code < 0xA0) || (code >= 0x2028 && code <= 0x202E) ||
         (code >= 0x2066 && code <= 0x2069) || code == 0x200E || code == 0x200F || code == 0xFEFF;
}

// Past all characters of a kind. Most are ASCII, which is not decoded.
template <class Is> std::size_t past(std::string_view text, std::size_t at, const Is &is) {
  for (;;) {
    const bool is_ascii = at < text.size() && static_cast<unsigned char>(text[at]) < 0x80;
    const Character sign = is_ascii ? Character{static_cast<unsigned char>(text[at]), 1} : character_at(text, at);
    if (sign.bytes == 0 || !is(sign.code)) return at;
    at += sign.bytes;
  }
}

} // namespace

bool is_digit(char32_t code) {
  return code >= '0' && code <= '9';
}

bool is_space(char32_t code) {
  if (code < 0x80) return code == ' ' || (code >= '\t' && code <= '\r');
  return code == 0xA0 || code == 0x1680 || (code >= 0x2000 && code <= 0x200A) || code == 0x202F || code == 0x205F ||
         code == 0x3000;
}

bool is_dash(char32_t code) {
  return code == '-' || (code >= 0x2010 && code <= 0x2015) || code == 0x2212;
}

bool begins_name(char32_t code) {
  if (code < 0x80) return is_ascii_letter(code);
  return code < 0xE0000 && !among(no_letters, code) && !among(only_within, code);
}

bool continues_name(char32_t code) {
  return code == '_' || is_digit(code) || begins_name(code) || among(only_within, code);
}

std::size_t past_spaces(std::string_view text, std::size_t at) {
  return past(text, at, is_space);
}

std::size_t past_digits(std::string_view text, std::size_t at) {
  while (at < text.size() && is_digit(static_cast<unsigned char>(text[at])))
    ++at;
  return at;
}

std::size_t past_word(std::string_view text, std::size_t at) {
  return begins_name(character_at(text, at).code) ? past(text, at, continues_name) : at;
}

std::string excerpt(std::string_view text) {
  std::string shown;
  std::size_t at = 0;
  for (std::size_t count = 0; at < text.size() && count < longest_excerpt; ++count) {
    const Character sign = character_at(text, at);
    if (sign.code == replacement || is_unfit_to_show(sign.code))
      shown += "\xEF\xBF\xBD";
    else
      shown += text.substr(at, sign.bytes);
    at += sign.bytes;
  }
  if (at < text.size()) shown += "\xE2\x80\xA6";
  return shown;
}

std::string quoted(std::string_view text) {
  return '"' + excerpt(text) + '"';
}

} // namespace gatherwright::quantity

namespace gatherwright {

std::string_view trimmed(std::string_view text) {
  text.remove_prefix(quantity::past_spaces(text, 0));
  std::size_t end = text.size();
  for (std::size_t before = end; before > 0; end = before) {
    --before;
    while (before > 0 && (static_cast<unsigned char>(text[before]) & 0xC0U) == 0x80U)
      --before;
    if (!quantity::is_space(character_at(text, before).code)) break;
  }
  return text.substr(0, end);
}

} // namespace gatherwright
