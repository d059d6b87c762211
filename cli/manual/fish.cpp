// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/manual/pages.hpp"

#include "cli/manual/offer.hpp"

#include <fmt/format.h>

namespace gatherwright::cli::pages {

namespace {

std::string quoted(std::string_view text) {
  std::string escaped;
  for (const char c : text) {
    if (c == '\\') escaped += '\\';
    escaped += c;
  }
  return in_quotes(escaped, "\\'");
}

constexpr std::string_view line = "complete -c gatherwright";

std::string within(std::string_view command) {
  return fmt::format("-n '__fish_seen_subcommand_from {}'", command);
}

/// How fish is told what to offer.
std::string told(const Offer &offer) {
  switch (offer.kind) {
  case Offer::Kind::words:
    return " -a " + quoted(joined(offer.words, " "));
  case Offer::Kind::files:
    return " -F";
  case Offer::Kind::folders:
    return " -a '(__fish_complete_directories)'";
  case Offer::Kind::nothing:
    break;
  }
  return "";
}

std::string option_line(const std::string &where, const OptionForm &option) {
  const std::string_view kind = !is_valued(option) ? "" : offer(option).kind == Offer::Kind::files ? " -r" : " -x";
  return fmt::format("{}{} -l {}{}{} -d {}\n", line, where, option.name.substr(2), kind,
                     is_valued(option) ? told(offer(option)) : "", quoted(option.help));
}

std::string of_command(const CommandForm &command) {
  std::string text =
      fmt::format("{} -n __fish_use_subcommand -a {} -d {}\n", line, command.name, quoted(command.summary));
  for (const OptionForm &option : command.options)
    text += option_line(" " + within(command.name), option);
  for (const OptionForm &argument : command.arguments)
    if (const std::string offered = told(offer(argument)); !offered.empty())
      text += fmt::format("{} {}{}\n", line, within(command.name), offered);
  return text;
}

} // namespace

std::string for_fish() {
  std::string text = fmt::format("# Completion of gatherwright for fish.\n\n{} -f\n", line);
  for (const OptionForm &option : common_options())
    text += option_line("", option);
  for (const CommandForm &command : commands())
    text += "\n" + of_command(command);
  return text;
}

} // namespace gatherwright::cli::pages
