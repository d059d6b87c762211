// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/report/say.hpp"

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace gatherwright::report {

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

  void key(std::string_view name);
  void text(std::string_view value);
  void number(double value); ///< null where it is not finite
  void integer(long long value);
  void truth(bool value);
  void null();
  void json(std::string_view value); ///< what is JSON already, as it is

  void text_field(std::string_view name, std::string_view value);
  void number_field(std::string_view name, double value);
  void integer_field(std::string_view name, long long value);
  void truth_field(std::string_view name, bool value);

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
  void separate();
  void new_line();
  void quoted(std::string_view value);

  Say say_;
  std::string out_;
  std::vector<Level> levels_;
  bool after_key_ = false;
};

} // namespace gatherwright::report
