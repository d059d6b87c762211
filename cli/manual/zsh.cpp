// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/manual/pages.hpp"

#include "cli/manual/offer.hpp"

#include <fmt/format.h>

namespace gatherwright::cli::pages {

namespace {

std::string quoted(std::string_view text) {
  return in_quotes(text, "'\\''");
}

/// Within a spec of _arguments, colons and brackets part its fields.
std::string plain(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == ':' || c == '[' || c == ']' || c == '\\') out += '\\';
    out += c;
  }
  return out;
}

std::string action(const Offer &offer) {
  switch (offer.kind) {
  case Offer::Kind::words:
    return fmt::format("({})", joined(offer.words, " "));
  case Offer::Kind::files:
    return "_files";
  case Offer::Kind::folders:
    return "_files -/";
  case Offer::Kind::nothing:
    break;
  }
  return " ";
}

/// "--weight[of the cloth]:W: "
std::string option_spec(const OptionForm &option) {
  std::string spec = fmt::format("{}[{}]", option.name, plain(option.help));
  if (is_valued(option)) spec += fmt::format(":{}:{}", plain(option.value), action(offer(option)));
  return quoted(spec);
}

std::string argument_spec(const OptionForm &argument) {
  return quoted(fmt::format("{}{}:{}", argument.needed ? ":" : "::", plain(argument.name), action(offer(argument))));
}

std::string arguments_of(const CommandForm &command) {
  std::string text = fmt::format("        {})\n          _arguments", command.name);
  const auto add = [&text](const std::string &spec) { text += " \\\n            " + spec; };
  for (const OptionForm &option : all_options(command))
    add(option_spec(option));
  for (const OptionForm &argument : command.arguments)
    add(argument_spec(argument));
  return text + "\n          ;;\n";
}

} // namespace

std::string for_zsh() {
  std::string text = "#compdef gatherwright\n# Completion of gatherwright for zsh.\n\n_gatherwright() {\n"
                     "  local curcontext=$curcontext state line\n  typeset -A opt_args\n  local -a commands\n"
                     "  commands=(\n";
  for (const CommandForm &command : commands())
    text += fmt::format("    {}\n", quoted(fmt::format("{}:{}", command.name, plain(command.summary))));
  text += "  )\n  _arguments -C";
  for (const OptionForm &option : common_options())
    text += fmt::format(" \\\n    {}", option_spec(option));
  text += " \\\n    '1:command:->command' \\\n    '*::argument:->argument'\n"
          "  case $state in\n    command) _describe command commands ;;\n    argument)\n      case $line[1] in\n";
  for (const CommandForm &command : commands())
    text += arguments_of(command);
  return text + "      esac\n      ;;\n  esac\n}\n\n_gatherwright \"$@\"\n";
}

} // namespace gatherwright::cli::pages
