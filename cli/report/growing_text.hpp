// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <string_view>

namespace gatherwright::report {

/// A text that is written byte by byte at its end, into room asked for beforehand, so that a byte costs no call. Its
/// memory is doubled as it grows, and begins with as much as the plan of a small garment takes.
class GrowingText {
public:
  /// Where so many bytes can be written, behind the text; until the next call.
  char *room(std::size_t bytes) {
    if (capacity_ - size_ < bytes) grow(bytes);
    return bytes_.get() + size_;
  }

  /// What stands before this place, within the room, is of the text from now on.
  void end_at(const char *end) { size_ = static_cast<std::size_t>(end - bytes_.get()); }

  void byte(char c) {
    *room(1) = c;
    ++size_;
  }
  void append(std::string_view text);

  std::size_t size() const { return size_; }
  operator std::string_view() const { return {bytes_.get(), size_}; }
  void clear() { size_ = 0; } // its memory stays

private:
  void grow(std::size_t bytes);

  std::unique_ptr<char[]> bytes_;
  std::size_t capacity_ = 0;
  std::size_t size_ = 0;
};

} // namespace gatherwright::report
