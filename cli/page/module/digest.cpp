// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/server.hpp"

#include <array>
#include <cstdint>

#include <nettle/sha2.h>

namespace {

std::string sha256(std::string_view bytes) {
  sha256_ctx state;
  sha256_init(&state);
  sha256_update(&state, bytes.size(), reinterpret_cast<const std::uint8_t *>(bytes.data()));
  std::array<std::uint8_t, SHA256_DIGEST_SIZE> digest;
  sha256_digest(&state, digest.size(), digest.data());
  static constexpr std::string_view digits = "0123456789abcdef";
  std::string text;
  for (const std::uint8_t byte : digest)
    (text += digits[byte / 16]) += digits[byte % 16];
  return text;
}

} // namespace

extern "C" [[gnu::visibility("default")]] gatherwright::cli::Ended gatherwright_digest(std::string_view bytes,
                                                                                       std::string &hexadecimal) {
  return gatherwright::cli::contained([&] { hexadecimal = sha256(bytes); });
}
