// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/machine/file_place.hpp"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <variant>

/// The folder that a cast goes into.
namespace gatherwright::cli::cast {

/// The tables, by their names in it; the last where the job has pieces.
inline constexpr std::string_view cast_table = "cast.csv";
inline constexpr std::string_view cut_table = "cut.csv";
inline constexpr std::string_view cloth_table = "cloth.csv";

/// Why a folder cannot be taken.
struct NotTaken {
  std::string what;
  std::string instead;
};

struct CannotTouch {
  std::string why;
};

/// Looks at a folder before anything is written: it must be new or empty, but for what killed programs have left; where
/// a cast is resumed, no file in it may be a plan of someone who is not in the list, and what has the name of a
/// wearer's file or of a table must be a file itself, no link, and none of those that are taken. `names`: those of the
/// list, folded.
std::optional<std::variant<NotTaken, CannotTouch>> look_at(const std::string &folder, bool resume,
                                                           const std::unordered_map<std::string, long long> &names,
                                                           std::span<const Taken> taken);

/// What came of making a folder, with those above it, or of finding it there.
struct Made {
  bool is_new = false;
  std::optional<std::string> cannot;
};
Made make_folder(const std::string &folder);

/// Takes away what a killed program has left of files on their way into place.
void clear_left_overs(const std::string &folder);

} // namespace gatherwright::cli::cast
