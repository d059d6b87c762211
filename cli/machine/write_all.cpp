// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/machine/write_all.hpp"

#include <cerrno>
#include <cstddef>

#include <unistd.h>

namespace gatherwright::cli {

bool write_all(int file, std::string_view text) {
  while (!text.empty()) {
    const ssize_t written = ::write(file, text.data(), text.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return false;
    text.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

} // namespace gatherwright::cli
