// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/report/growing_text.hpp"
#include "cli/report/say.hpp"

#include <algorithm>
#include <array>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace gatherwright::report {

/// Bytes that are escaped in JSON, and those with which a character begins that may be one that turns the direction.
inline constexpr auto looked_at = [] {
  std::array<bool, 256> bytes{};
  std::fill_n(bytes.begin(), 0x20, true);
  for (const unsigned char byte : {'"', '\\', '\x7f', '\xd8', '\xe2'})
    bytes[byte] = true;
  return bytes;
}();

inline constexpr auto is_looked_at = [](char c) { return looked_at[static_cast<unsigned char>(c)]; };

/// A key of an object. One that is written in the source is looked through and quoted when that is compiled, so that it
/// need only be copied; of any other each byte is looked at.
class Key {
public:
  template <std::size_t Size> consteval Key(const char (&literal)[Size]) : name_(literal, Size - 1) {
    if (std::any_of(name_.begin(), name_.end(), is_looked_at)) throw "this key would have to be escaped";
    constexpr std::string_view after = "\": ";
    static_assert(1 + (Size - 1) + after.size() <= room, "this key is too long for its room");
    written_[0] = '"';
    std::copy(after.begin(), after.end(), std::copy(name_.begin(), name_.end(), written_.begin() + 1));
    size_ = 1 + name_.size() + after.size();
  }
  Key(std::string_view name) : name_(name) {}
  Key(const std::string &name) : name_(name) {}

  std::string_view name() const { return name_; }
  bool is_plain() const { return size_ > 0; }

  /// What a plain key takes at most. All of it is copied, which is quicker than as much as it takes.
  static constexpr std::size_t room = 32;
  /// Writes a plain key, quoted, with what parts it from its value; returns where that begins.
  char *write(char *end) const {
    std::copy_n(written_.begin(), room, end);
    return end + size_;
  }

private:
  std::string_view name_;
  std::size_t size_ = 0; ///< of what is written; 0: it is not plain
  std::array<char, room> written_{};
};

/// Writes JSON: keys in the order they come, two spaces a level, and what is opened as `Lay::one_line` on one line.
/// Numbers are the shortest that read back as the same double; one that is not finite cannot be written, as a field it
/// is left out with its key. Texts must be UTF-8; control characters and those that turn the direction of what follows
/// are written by their numbers, so that a reader sees them and sees the rest in its order.
class JsonText {
public:
  enum class Lay { lines, one_line };

  /// Holds all of its text; with `say`, of a long one no more than a piece at a time.
  explicit JsonText(Say say = {}) : say_(std::move(say)) {}

  void open_object(Lay lay = Lay::lines);
  void open_array(Lay lay = Lay::lines);
  void close();

  void key(const Key &name);
  void text(std::string_view value);
  void number(double value); ///< null where it is not finite
  void integer(long long value);
  void truth(bool value);
  void null();
  void json(std::string_view value); ///< what is JSON already, as it is

  void text_field(const Key &name, std::string_view value);
  void number_field(const Key &name, double value);
  void integer_field(const Key &name, long long value);
  void truth_field(const Key &name, bool value);

  /// The whole text, or what has not been said of it, once everything is closed; ended by a line feed.
  std::string take();

private:
  struct Level {
    char close;
    bool one_line;
    bool empty;
  };

  void open(char opening, char closing, Lay lay);
  void before_value();
  /// What may stand between two values, at most, in bytes.
  std::size_t between() const { return 2 * levels_.size() + 2; }
  char *separated(char *end);
  char *new_line(char *end) const;
  void quoted(std::string_view value);
  void escape(std::string_view value, std::size_t at);

  Say say_;
  GrowingText out_;
  std::vector<Level> levels_;
  bool after_key_ = false;
};

} // namespace gatherwright::report
