// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/outcome.hpp"

#include <optional>
#include <string>
#include <string_view>

/// Wearers' names as the names of files.
namespace gatherwright::cli::cast {

/// Bytes left for what follows a wearer's name in the name of a file, of the 255 that file systems allow.
constexpr std::size_t longest_suffix = 16;

/// What keeps a name from being the beginning of a file's name on some common system, if anything. A name is taken as
/// it is or refused, never altered, so that whoever looks for a wearer's plan finds it under the name in the list.
/// Refused: an empty name, `.` and `..`; one with any of / \ : * ? " < > |; with a character that cannot be seen (a
/// control character, what Unicode calls default ignorable, a filler, one that does not exist), or a space of another
/// kind than the plain one before or after it, so that two names that look alike are not two wearers; one that some
/// systems keep for devices (con, nul, com1, com¹, conin$ ...); and one too long. `name` must be UTF-8.
std::optional<Fault> fault_of_name(std::string_view name);

/// The name as a file system that tells no capitals from small letters knows it: Unicode's full case folding, composed
/// (NFC), so that of two names that come out the same only one can be a file there; and with every kind of space as the
/// plain one, since they look alike. `name` must be UTF-8.
std::string folded(std::string_view name);

} // namespace gatherwright::cli::cast
