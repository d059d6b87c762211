// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/secret.hpp"

#include <array>
#include <cerrno>
#include <cstddef>
#include <system_error>

#include <sys/random.h>

namespace gatherwright::page {

std::string new_secret() {
  std::array<unsigned char, 20> bytes;
  for (std::size_t had = 0; had < bytes.size();) {
    const ssize_t got = ::getrandom(bytes.data() + had, bytes.size() - had, 0);
    if (got < 0 && errno != EINTR) throw std::system_error(errno, std::generic_category());
    if (got > 0) had += static_cast<std::size_t>(got);
  }
  static constexpr std::string_view digits = "0123456789abcdef";
  std::string secret;
  for (const unsigned char byte : bytes)
    (secret += digits[byte / 16]) += digits[byte % 16];
  return secret;
}

bool is_secret(std::string_view given, std::string_view secret) {
  if (given.size() != secret.size()) return false; // how long it is can be known
  volatile unsigned char differs = 0;              // volatile: so that all of it is compared
  for (std::size_t i = 0; i < secret.size(); ++i)
    differs = static_cast<unsigned char>(differs | (given[i] ^ secret[i]));
  return differs == 0;
}

} // namespace gatherwright::page
