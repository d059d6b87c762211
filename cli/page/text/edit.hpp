// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/page/text/source.hpp"

#include <string>
#include <string_view>
#include <vector>

/// Changes to what stands in a list or an object. All of the text outside is kept byte for byte.
namespace gatherwright::page {

/// What takes the place of the bytes from `begin` to `end`.
struct Edit {
  std::size_t begin = 0;
  std::size_t end = 0;
  std::string text = {};
};

/// The text with edits in ascending order that do not overlap.
std::string edited(std::string_view text, const std::vector<Edit> &edits);

/// Where what is put in will stand, which says how it is laid out.
struct Room {
  std::string indentation; ///< of its line
  bool own_line = false;
  bool lines_within = false; ///< what stands in it has lines of its own too, however short it is
  std::string step;          ///< by which one level goes in
  std::string line_end;
};

/// How the text goes in by a level: as its first line that does, else two spaces.
std::string indentation_step(const Source &source);

/// The room at a place among what stands in a list or an object. In a list the neighbour says whether there are lines
/// within. `own_lines`: in an empty one there are to be lines.
Room room_at(const Source &source, const cli::Value &container, int place, bool own_lines);

/// With a member put in at a place, 0 to the count of what is there; `member` has the key, if any, and the value.
std::string with_member(const Source &source, const cli::Value &container, int place, const Room &room,
                        std::string_view member);

/// Without the member at a place, the remarks that go with it and a comma that is then too many.
std::string without_member(const Source &source, const cli::Value &container, int place);

/// With the member at a place, and its remarks, at another.
std::string with_member_moved(const Source &source, const cli::Value &container, int from, int to);

} // namespace gatherwright::page
