// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/manual/pages.hpp"

#include "cli/manual/offer.hpp"

#include <fmt/format.h>

namespace gatherwright::cli::pages {

namespace {

constexpr std::string_view opening = R"(# Completion of gatherwright for bash.

_gatherwright_offer() { # KIND WORD [CHOICES]
  local word=$2
  case $1 in
    words) mapfile -t COMPREPLY < <(compgen -W "$3" -- "$word") ;;
    files) compopt -o filenames 2>/dev/null; mapfile -t COMPREPLY < <(compgen -f -- "$word") ;;
    folders) compopt -o filenames 2>/dev/null; mapfile -t COMPREPLY < <(compgen -d -- "$word") ;;
  esac
}

_gatherwright() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} command= i
  COMPREPLY=()
  # --option=value comes in three words.
  if [[ $word == = ]]; then
    word=
  elif [[ $before == = ]]; then
    before=${COMP_WORDS[COMP_CWORD-2]}
  fi
)";

std::string names_of(std::span<const OptionForm> options) {
  std::vector<std::string> names;
  for (const OptionForm &option : options)
    names.emplace_back(option.name);
  return joined(names, " ");
}

std::string offered(const Offer &offer) {
  switch (offer.kind) {
  case Offer::Kind::words:
    return fmt::format("_gatherwright_offer words \"$word\" '{}'", joined(offer.words, " "));
  case Offer::Kind::files:
    return "_gatherwright_offer files \"$word\"";
  case Offer::Kind::folders:
    return "_gatherwright_offer folders \"$word\"";
  case Offer::Kind::nothing:
    break;
  }
  return ":";
}

/// What follows an option that takes a value.
std::string after_options(std::string_view command, std::span<const OptionForm> options) {
  std::string text;
  for (const OptionForm &option : options)
    if (is_valued(option))
      text += fmt::format("    {}:{}) {}; return ;;\n", command, option.name, offered(offer(option)));
  return text;
}

/// What may stand where no option's value is awaited: options after a dash, else arguments.
std::string within(const CommandForm &command) {
  Offer arguments;
  for (const OptionForm &argument : command.arguments)
    if (arguments.kind == Offer::Kind::nothing) arguments = offer(argument);
  return fmt::format("    {}:-*) _gatherwright_offer words \"$word\" '{}' ;;\n    {}:*) {} ;;\n", command.name,
                     names_of(all_options(command)), command.name, offered(arguments));
}

} // namespace

std::string for_bash() {
  std::vector<std::string> names;
  for (const CommandForm &command : commands())
    names.emplace_back(command.name);
  std::string text(opening);
  text += fmt::format("  for ((i = 1; i < COMP_CWORD; i++)); do\n    case ${{COMP_WORDS[i]}} in\n      {}) command="
                      "${{COMP_WORDS[i]}}; break ;;\n    esac\n  done\n  case $command:$before in\n",
                      joined(names, " | "));
  text += after_options("*", common_options());
  for (const CommandForm &command : commands())
    text += after_options(command.name, command.options);
  text += "  esac\n  case $command:$word in\n";
  for (const CommandForm &command : commands())
    text += within(command);
  text += fmt::format("    :*) _gatherwright_offer words \"$word\" '{} {}' ;;\n  esac\n}}\n\n", joined(names, " "),
                      names_of(common_options()));
  return text + "complete -F _gatherwright gatherwright\n";
}

} // namespace gatherwright::cli::pages
