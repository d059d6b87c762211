// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <string_view>

/// Commands and options as help, the manual, the completions and the command line know them.
namespace gatherwright::cli {

/// An option or, where its name has no dashes, an argument that stands by its place.
struct OptionForm {
  std::string_view name;  ///< "--weight", "LONG"
  std::string_view value; ///< what it takes, as help shows it; empty for a switch
  std::string_view help;
  bool needed = false; ///< of an argument
};

constexpr bool is_option(const OptionForm &form) {
  return form.name.starts_with("-");
}

/// An option that takes no value.
constexpr bool is_switch(const OptionForm &form) {
  return is_option(form) && form.value.empty();
}

/// An option that takes a value.
constexpr bool is_valued(const OptionForm &form) {
  return is_option(form) && !form.value.empty();
}

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

} // namespace gatherwright::cli
