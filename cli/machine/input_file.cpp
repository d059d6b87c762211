// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/machine/input_file.hpp"

#include "cli/machine/open_file.hpp"

#include <algorithm>
#include <cerrno>
#include <cstring>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace gatherwright::cli {

namespace {

std::size_t size_of(int file) {
  struct stat status {};
  return ::fstat(file, &status) == 0 && S_ISREG(status.st_mode) ? static_cast<std::size_t>(status.st_size) : 0;
}

/// What is left to read of an open file.
Outcome<std::string, CannotRead> read_open(int file, std::size_t most) {
  constexpr std::size_t piece = 65536;
  // One more than the file has, so that its end is seen without another piece.
  std::string text(std::min(size_of(file), most) + 1, '\0');
  for (std::size_t length = 0;;) {
    if (length == text.size()) text.resize(std::min(length + piece, most + 1));
    const ssize_t got = ::read(file, text.data() + length, text.size() - length);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return CannotRead{std::strerror(errno)};
    length += static_cast<std::size_t>(got);
    if (got == 0 || length > most) {
      text.resize(length);
      return text;
    }
  }
}

} // namespace

Outcome<std::string, CannotRead> read_input(const std::string &path, std::size_t most) {
  if (path == "-") return read_open(STDIN_FILENO, most); // it stays open
  const OpenFile file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  return file.is_open() ? read_open(file.number(), most) : CannotRead{std::strerror(errno)};
}

Outcome<std::string, CannotRead> read_file_itself(const std::string &path, std::size_t most) {
  const OpenFile file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK));
  struct stat status {};
  if (!file.is_open() || ::fstat(file.number(), &status) != 0) return CannotRead{std::strerror(errno)};
  if (!S_ISREG(status.st_mode)) return CannotRead{"it is no file"};
  return read_open(file.number(), most);
}

} // namespace gatherwright::cli
