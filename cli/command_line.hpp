// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace gatherwright::cli {

/// An option or, where its name has no dashes, an argument that stands by its place.
struct OptionForm {
  std::string_view name;  ///< "--weight", "LONG"
  std::string_view value; ///< what it takes, as help shows it; empty for a switch
  std::string_view help;
  bool needed = false; ///< of an argument
};

/// A command as help, the command line and everything made of them know it.
struct CommandForm {
  std::string_view name;
  std::string_view summary;
  std::span<const OptionForm> arguments;
  std::span<const OptionForm> options; ///< without those that every command takes
  std::string_view example;
};

/// Every command of the program, in the order of help.
std::span<const CommandForm> commands();

/// The options that every command takes.
std::span<const OptionForm> common_options();

/// What a command line asks for.
struct Asked {
  const CommandForm *command = nullptr; ///< none: only help or version
  bool help = false;
  bool version = false;
  std::map<std::string_view, std::string> values; ///< by name; a switch that is there has an empty one

  bool has(std::string_view name) const { return values.contains(name); }
  std::optional<std::string> value(std::string_view name) const;
};

/// Reads a command line, without the program's own name. Either what it asks for, or every fault in it as a line
/// "--weight: what is wrong; what would be right".
std::variant<Asked, std::vector<std::string>> read_command_line(std::span<const std::string> arguments);

} // namespace gatherwright::cli
