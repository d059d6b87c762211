// SPDX-License-Identifier: GPL-3.0-or-later
#include "input_file.hpp"

#include "open_file.hpp"

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

} // namespace

std::variant<std::string, CannotRead> read_input(const std::string &path, std::size_t most) {
  OpenFile opened; // standard input is not: it stays open
  if (path != "-") opened = OpenFile(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  const int file = path == "-" ? STDIN_FILENO : opened.number();
  if (file < 0) return CannotRead{std::strerror(errno)};
  constexpr std::size_t piece = 65536;
  std::string text;
  // One more than the file has, so that its end is seen without another piece.
  std::size_t room = std::min(size_of(file), most) + 1;
  for (std::size_t length = 0;;) {
    text.resize(length + room);
    const ssize_t got = ::read(file, text.data() + length, room);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return CannotRead{std::strerror(errno)};
    length += static_cast<std::size_t>(got);
    text.resize(length);
    if (got == 0 || length > most) return text;
    room = std::min(piece, most - length) + 1;
  }
}

} // namespace gatherwright::cli
