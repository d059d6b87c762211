// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/commands.hpp"
#include "cli/help.hpp"
#include "cli/words/quoted.hpp"

namespace gatherwright::cli {

namespace {

/// Whether to use colour: as asked, else on a terminal unless NO_COLOR says not to.
std::variant<bool, std::string> colour(const Asked &asked, const Surroundings &surroundings) {
  const std::string when = asked.value("--color").value_or("auto");
  if (when == "always") return true;
  if (when == "never") return false;
  if (when == "auto") return surroundings.terminal && !surroundings.no_color;
  return option_fault("--color", "it is auto, always or never", "write --color auto");
}

} // namespace

Answer run(std::span<const std::string> arguments, const Surroundings &surroundings) {
  const auto read = read_command_line(arguments);
  if (const auto *faults = std::get_if<std::vector<std::string>>(&read)) return unusable(*faults);
  const Asked &asked = std::get<Asked>(read);
  if (asked.help) return {Status::within_limits, help(asked.command), {}};
  if (asked.version) return {Status::within_limits, version(), {}};
  const auto wanted = colour(asked, surroundings);
  if (const auto *fault = std::get_if<std::string>(&wanted)) return unusable({*fault});
  const report::Ink ink{std::get<bool>(wanted)};
  if (asked.command->name == "plan") return plan_command(asked, ink, surroundings);
  if (asked.command->name == "join") return join_command(asked, ink, surroundings);
  if (asked.command->name == "cast") return cast_command(asked, surroundings);
  if (asked.command->name == "limits") return limits_command(asked);
  return start_command(asked);
}

} // namespace gatherwright::cli
