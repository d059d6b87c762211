// SPDX-License-Identifier: GPL-3.0-or-later
// Decoding UTF-8, held beside utf8proc's.

#include "gatherwright/text.hpp"

#include <catch2/catch.hpp>
#include <utf8proc.h>

#include <cctype>
#include <random>
#include <string>

using namespace gatherwright;

namespace {

/// Whether both decode the beginning of these bytes alike.
bool alike(const std::string &bytes) {
  utf8proc_int32_t code = -1;
  const auto *first = reinterpret_cast<const utf8proc_uint8_t *>(bytes.data());
  const utf8proc_ssize_t length = utf8proc_iterate(first, static_cast<utf8proc_ssize_t>(bytes.size()), &code);
  const Character found = character_at(bytes, 0);
  if (length < 0) return !found.valid && found.bytes == 1 && found.code == 0xFFFD;
  return found.valid && found.bytes == static_cast<std::size_t>(length) && found.code == static_cast<char32_t>(code);
}

std::string encoded(char32_t code) {
  utf8proc_uint8_t bytes[4];
  const utf8proc_ssize_t length = utf8proc_encode_char(static_cast<utf8proc_int32_t>(code), bytes);
  return {reinterpret_cast<const char *>(bytes), static_cast<std::size_t>(length)};
}

} // namespace

TEST_CASE("every code point is decoded as it was encoded") {
  int wrong = 0;
  for (char32_t code = 0; code <= 0x10FFFF; ++code) {
    if (code >= 0xD800 && code < 0xE000) continue;
    const Character found = character_at(encoded(code), 0);
    wrong += !found.valid || found.code != code;
  }
  CHECK(wrong == 0);
}

TEST_CASE("bytes that are no UTF-8 are told from those that are, as by another decoder") {
  int wrong = 0;
  for (int one = 0; one < 256; ++one)
    for (int two = 0; two < 256; ++two)
      for (const int three : {0x00, 0x41, 0x7F, 0x80, 0x9F, 0xA0, 0xBF, 0xC0, 0xFF})
        for (const int four : {0x00, 0x7F, 0x80, 0xBF, 0xC0})
          wrong += !alike(
              {static_cast<char>(one), static_cast<char>(two), static_cast<char>(three), static_cast<char>(four)});
  std::mt19937 random(5);
  for (int round = 0; round < 100'000; ++round) {
    std::string bytes(1 + random() % 4, ' ');
    for (char &byte : bytes)
      byte = static_cast<char>(random() % 2 ? 0x80 + random() % 0x80 : random());
    wrong += !alike(bytes);
  }
  CHECK(wrong == 0);
}

TEST_CASE("at the end of a text there is no character") {
  const Character end = character_at("a", 1);
  CHECK(end.bytes == 0);
  CHECK(end.code == 0);
  CHECK(character_at("", 0).bytes == 0);
}

TEST_CASE("of all bytes those that are printed in ASCII are the 95 of its table") {
  int printable = 0;
  for (int byte = 0; byte < 256; ++byte) {
    const std::string text = {'a', static_cast<char>(byte), 'z'};
    const bool is = is_printable_ascii(text);
    CHECK(is == (byte < 128 && std::isprint(byte) != 0)); // in the C locale
    printable += is;
  }
  CHECK(printable == 95);
  CHECK(is_printable_ascii(""));
}

TEST_CASE("a text is clipped after a whole character") {
  const std::string text = "aé€😀";
  CHECK(clipped(text, 100) == text);
  CHECK(clipped(text, 9) == "aé€");
  CHECK(clipped(text, 6) == "aé€");
  CHECK(clipped(text, 5) == "aé");
  CHECK(clipped(text, 2) == "a");
  CHECK(clipped(text, 0).empty());
  CHECK(is_utf8(text));
  CHECK_FALSE(is_utf8(text.substr(0, 2)));
}
