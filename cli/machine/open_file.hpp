// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <utility>

#include <unistd.h>

namespace gatherwright::cli {

/// A file, or an end of a pipe, that is open until it is closed or goes out of scope. -1: none.
class OpenFile {
public:
  explicit OpenFile(int number = -1) : number_(number) {}
  ~OpenFile() { close(); }
  OpenFile(OpenFile &&other) noexcept : number_(std::exchange(other.number_, -1)) {}
  OpenFile &operator=(OpenFile &&other) noexcept {
    std::swap(number_, other.number_);
    return *this;
  }
  OpenFile(const OpenFile &) = delete;
  OpenFile &operator=(const OpenFile &) = delete;

  int number() const { return number_; }
  bool is_open() const { return number_ >= 0; }
  /// False, with `errno` set, where the system has kept a failed write until now.
  bool close() { return number_ < 0 || ::close(std::exchange(number_, -1)) == 0; }

private:
  int number_;
};

} // namespace gatherwright::cli
