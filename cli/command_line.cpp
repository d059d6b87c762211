// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/command_line.hpp"

#include "cli/words/quoted.hpp"
#include "gatherwright/nearest.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace gatherwright::cli {

namespace {

/// What stands on a command line, word by word.
struct Reading {
  const CommandForm *command = nullptr;
  std::vector<Given> given;
  std::vector<std::string> unknown; ///< options that there are not
  std::vector<std::string> surplus; ///< words that stand for nothing
  std::vector<std::string> faults;  ///< of values
  bool options_over = false;        ///< after "--" all words are arguments
  std::size_t arguments = 0;
};

const CommandForm *command_named(std::string_view name) {
  for (const CommandForm &form : commands())
    if (form.name == name) return &form;
  return nullptr;
}

/// The command's own first, if there is one, then those of every command.
std::array<std::span<const OptionForm>, 2> known_options(const CommandForm *command) {
  return {command == nullptr ? std::span<const OptionForm>() : command->options, common_options()};
}

const OptionForm *option_named(std::string_view name, const CommandForm *command) {
  for (const auto &options : known_options(command))
    for (const OptionForm &form : options)
      if (form.name == name) return &form;
  return nullptr;
}

/// Of two that are equally near the one that every command takes is the first.
std::optional<std::string> nearest_option(std::string_view name, const CommandForm *command) {
  const auto [own, common] = known_options(command);
  std::vector<std::string> names;
  for (const auto &options : {common, own})
    for (const OptionForm &form : options)
      names.emplace_back(form.name);
  const auto near = nearest(name, names);
  return near ? std::optional<std::string>(*near) : std::nullopt;
}

std::string unknown_option(std::string_view given, const CommandForm *command) {
  const std::string_view name = given.substr(0, given.find('='));
  if (name.size() > 1 && (name[1] == '.' || (name[1] >= '0' && name[1] <= '9')))
    return option_fault(given, "a length is not negative", "leave the - out");
  if (option_named(name, command) != nullptr)
    return option_fault(name, "it stands before the command", fmt::format("write it after {}", command->name));
  if (const auto near = nearest_option(name, command))
    return option_fault(name, "there is no such option", fmt::format("write {}", *near));
  return option_fault(name, "there is no such option",
                      command == nullptr ? "gatherwright --help lists them"
                                         : fmt::format("gatherwright {} --help lists them", command->name));
}

std::string surplus(std::string_view given, const CommandForm &command) {
  if (command.arguments.empty())
    return option_fault(given, "this is one too many", fmt::format("{} takes only options", command.name));
  std::string takes;
  for (const OptionForm &argument : command.arguments)
    takes += fmt::format(" {}", argument.name);
  return option_fault(
      given, "this is one too many",
      fmt::format("{} takes{}; what has a space stands in quotes, as in \"52 cm\"", command.name, takes));
}

/// A word in quotes where a shell would part it.
std::string in_a_shell(std::string_view word) {
  return word.find(' ') == std::string_view::npos ? std::string(word) : fmt::format("\"{}\"", word);
}

std::string no_such_command(std::string_view given) {
  if (given.ends_with(".json"))
    return option_fault(given, "this is a file and no command", fmt::format("write plan {}", in_a_shell(given)));
  std::vector<std::string> names;
  for (const CommandForm &form : commands())
    names.emplace_back(form.name);
  if (const auto near = nearest(given, names))
    return option_fault(given, "there is no such command", fmt::format("write {}", *near));
  return option_fault(given, "there is no such command", fmt::format("write one of {}", fmt::join(names, ", ")));
}

/// Whatever stands where nothing is known: unknown options first, since what follows one may have been meant for it.
std::vector<std::string> faults_of_extras(const Reading &reading) {
  std::vector<std::string> faults;
  for (const std::string &option : reading.unknown)
    faults.push_back(unknown_option(option, reading.command));
  if (!faults.empty() || reading.surplus.empty()) return faults;
  if (reading.command == nullptr) return {no_such_command(reading.surplus.front())};
  for (const std::string &word : reading.surplus)
    faults.push_back(surplus(word, *reading.command));
  return faults;
}

/// Whether a word is an option, known or not. A dash alone, and a number or a space after it, are an argument's; so is
/// what no name begins with.
bool reads_as_option(std::string_view word) {
  constexpr std::string_view begins_no_name = "-! \n";
  if (!word.starts_with("-")) return false;
  const bool is_long = word.starts_with("--");
  word.remove_prefix(is_long ? 2 : 1);
  if (word.empty() || begins_no_name.find(word.front()) != std::string_view::npos) return false;
  return is_long || word.front() < '0' || word.front() > '9';
}

void read_switch(Reading &reading, const OptionForm &form, std::string_view value) {
  if (value.empty() || value == "true")
    reading.given.push_back({&form, ""});
  else
    reading.faults.push_back(option_fault(form.name, "it takes no value", fmt::format("write {} alone", form.name)));
}

/// An option, and the word after it where that is its value: how many words it took. "-h" is the one short name, and
/// whatever is written behind it asks for help all the same. With nothing after its "=" an option takes the next word.
std::size_t read_option(Reading &reading, std::span<const std::string> words) {
  const std::string_view word = words.front();
  const std::size_t equals = word.find('=');
  const bool short_help = word.starts_with("-h");
  const OptionForm *form = option_named(short_help ? "--help" : word.substr(0, equals), reading.command);
  if (form == nullptr) {
    reading.unknown.emplace_back(word);
    return 1;
  }
  const std::string_view value = short_help || equals == std::string_view::npos ? "" : word.substr(equals + 1);
  if (is_switch(*form)) {
    read_switch(reading, *form, value);
    return 1;
  }
  if (value.empty() && words.size() < 2) {
    reading.faults.push_back(option_fault(form->name, "its value is missing", "write it after the option"));
    return 1;
  }
  reading.given.push_back({form, value.empty() ? words[1] : std::string(value)});
  return value.empty() ? 2 : 1;
}

void read_argument(Reading &reading, const std::string &word) {
  if (reading.command == nullptr && (reading.command = command_named(word)) != nullptr) return;
  if (reading.command != nullptr && reading.arguments < reading.command->arguments.size())
    reading.given.push_back({&reading.command->arguments[reading.arguments++], word});
  else if (!reading.options_over && word.size() > 1 && word.starts_with("-"))
    reading.unknown.push_back(word);
  else
    reading.surplus.push_back(word);
}

Reading read_words(std::span<const std::string> words) {
  Reading reading;
  while (!words.empty()) {
    const std::string &word = words.front();
    std::size_t read = 1;
    if (word == "--" && !reading.options_over)
      reading.options_over = true;
    else if (reads_as_option(word) && !reading.options_over)
      read = read_option(reading, words);
    else
      read_argument(reading, word);
    words = words.subspan(read);
  }
  return reading;
}

std::size_t times_given(const Reading &reading, const OptionForm &form) {
  return static_cast<std::size_t>(std::count_if(reading.given.begin(), reading.given.end(),
                                                [&](const Given &given) { return given.form == &form; }));
}

/// In the order of help.
std::vector<std::string> given_twice(const Reading &reading) {
  std::vector<std::string> faults;
  for (const auto &options : known_options(reading.command))
    for (const OptionForm &form : options)
      if (times_given(reading, form) > 1)
        faults.push_back(option_fault(form.name, "it is given twice", "give it once"));
  return faults;
}

std::vector<std::string> missing(const Reading &reading) {
  if (reading.command == nullptr) return {"gatherwright: no command is given; gatherwright --help lists them"};
  const CommandForm &command = *reading.command;
  std::vector<std::string> faults;
  for (const OptionForm &argument : command.arguments)
    if (argument.needed && times_given(reading, argument) == 0)
      faults.push_back(option_fault(argument.name, "it is missing",
                                    fmt::format("write it after {}, as in {}", command.name, command.example)));
  return faults;
}

/// All that is wrong. What is missing is told only where nothing else is: it may stand there under a wrong name.
std::vector<std::string> faults_of(const Reading &reading) {
  std::vector<std::string> faults = faults_of_extras(reading);
  for (const auto &more : {reading.faults, given_twice(reading)})
    faults.insert(faults.end(), more.begin(), more.end());
  return faults.empty() ? missing(reading) : faults;
}

std::optional<Colour> colour_named(std::string_view when) {
  if (when == "auto") return Colour::automatic;
  if (when == "always") return Colour::always;
  if (when == "never") return Colour::never;
  return std::nullopt;
}

} // namespace

Outcome<CommandLine, std::vector<std::string>> read_command_line(std::span<const std::string> words) {
  const Reading reading = read_words(words);
  const CommonAsked common = common_of(reading.given);
  if (common.help) return CommandLine{HelpRequest{reading.command}};
  if (common.version) return CommandLine{VersionRequest{}};
  std::vector<std::string> faults = faults_of(reading);
  const auto colour = colour_named(common.color.value_or("auto"));
  if (!colour)
    faults.push_back(option_fault(name_of<&CommonAsked::color>, "it is auto, always or never", "write --color auto"));
  if (!faults.empty()) return faults;
  return CommandLine{request_of(*reading.command, reading.given), *colour};
}

} // namespace gatherwright::cli
