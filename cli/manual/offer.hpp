// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/forms.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace gatherwright::cli::pages {

/// What a shell may offer where a value or an argument is to be written.
struct Offer {
  enum class Kind { nothing, files, folders, words };
  Kind kind = Kind::nothing;
  std::vector<std::string> words;
};

/// By what the form calls its value ("FILE", "U", "a4|letter"), or by the argument's own name ("JOB").
Offer offer(const OptionForm &form);

/// The options of a command, those that every command takes last.
std::vector<OptionForm> all_options(const CommandForm &command);

/// Texts with something between them.
std::string joined(const std::vector<std::string> &words, std::string_view between);

/// A text in single quotes, as shells read it: with `inner` for a quote within it ("'\\''" in bash and zsh).
std::string in_quotes(std::string_view text, std::string_view inner);

} // namespace gatherwright::cli::pages
