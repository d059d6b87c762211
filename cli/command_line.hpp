// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/request.hpp"
#include "gatherwright/outcome.hpp"

#include <span>
#include <string>
#include <vector>

namespace gatherwright::cli {

/// Whether there are to be colours; left to itself, on a terminal.
enum class Colour { automatic, always, never };

/// What a command line asks for.
struct CommandLine {
  Request request;
  Colour colour = Colour::automatic;
};

/// Reads a command line, without the program's own name. Either what it asks for, or every fault in it as a line
/// "--weight: what is wrong; what would be right"; help or version, where it is asked for, whatever else is wrong.
///
/// The command stands where it will among the options that every command takes, and its own stand behind it, before,
/// between or after its arguments. A value is the next word, whatever that looks like, or stands behind "=". After "--"
/// every word is an argument; a dash alone, and one with a number behind it, always is. Of one letter there is "-h".
Outcome<CommandLine, std::vector<std::string>> read_command_line(std::span<const std::string> words);

} // namespace gatherwright::cli
