// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/job/document.hpp"

namespace gatherwright::cli {

/// Where reading JSON came to a halt: what was last read whole, and the offset just past it.
struct Halt {
  enum class After { nothing, opening, key, value, everything };
  After after = After::nothing;
  std::size_t offset = 0;
  bool in_object = false;                ///< the innermost thing still open is an object
  int opened = 0;                        ///< the line at which it was opened
  Value::Kind value = Value::Kind::null; ///< the kind of the last value
  std::string_view value_text;           ///< its text, of a number or a text
};

/// What is wrong with the JSON after the halt, in words for someone who never heard of JSON, with the line and an empty
/// pointer.
InputFault syntax_fault(std::string_view text, const Halt &halt);

/// The first byte that is not UTF-8, or a NUL; the text's size where there is none.
std::size_t first_bad_byte(std::string_view text);

/// The line at an offset, from 1.
int line_at(std::string_view text, std::size_t offset);

} // namespace gatherwright::cli
