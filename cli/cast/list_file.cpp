// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/cast/list_file.hpp"

#include <cerrno>
#include <cstring>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace gatherwright::cli::cast {

ListFile::ListFile(const std::string &path) : file_(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK)) {
  struct stat status {};
  if (!file_.is_open() || ::fstat(file_.number(), &status) != 0)
    cannot_ = std::strerror(errno);
  else if (S_ISDIR(status.st_mode))
    cannot_ = std::strerror(EISDIR);
  regular_ = S_ISREG(status.st_mode);
}

ReadBytes ListFile::from_start() {
  return [this, at = off_t{0}](char *into, std::size_t most) mutable -> std::size_t {
    for (;;) {
      const ssize_t got = ::pread(file_.number(), into, most, at);
      if (got < 0 && errno == EINTR) continue;
      if (got < 0) {
        cannot_ = std::strerror(errno);
        return 0;
      }
      at += got;
      return static_cast<std::size_t>(got);
    }
  };
}

} // namespace gatherwright::cli::cast
