// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/command_line.hpp"
#include "cli/commands.hpp"

namespace gatherwright::cli {

namespace {

bool is_coloured(Colour colour, const Surroundings &surroundings) {
  return colour == Colour::always || (colour == Colour::automatic && surroundings.terminal && !surroundings.no_color);
}

} // namespace

Answer run(std::span<const std::string> words, const Surroundings &surroundings) {
  const auto read = read_command_line(words);
  if (!read) return unusable(read.fault());
  const auto &[request, colour] = *read;
  const Voice voice{report::Ink{is_coloured(colour, surroundings)}, surroundings.tell, surroundings.say};
  return std::visit([&](const auto &asked) { return answer(asked, voice); }, request);
}

} // namespace gatherwright::cli
