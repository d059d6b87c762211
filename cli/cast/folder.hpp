// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <unordered_map>
#include <variant>

/// The folder that a cast goes into.
namespace gatherwright::cli::cast {

/// Why a folder cannot be taken.
struct NotTaken {
  std::string what;
  std::string instead;
};

struct CannotTouch {
  std::string why;
};

/// Looks at a folder before anything is written: it must be new or empty; where a cast is resumed, no file in it may be
/// a plan of someone who is not in the list. `names`: those of the list, folded.
std::optional<std::variant<NotTaken, CannotTouch>> look_at(const std::string &folder, bool resume,
                                                           const std::unordered_map<std::string, long long> &names);

/// What came of making a folder, with those above it, or of finding it there.
struct Made {
  bool is_new = false;
  std::optional<std::string> cannot;
};
Made make_folder(const std::string &folder);

/// Takes away what a killed program has left of files on their way into place.
void clear_left_overs(const std::string &folder);

} // namespace gatherwright::cli::cast
