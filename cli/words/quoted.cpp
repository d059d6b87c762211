// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/quoted.hpp"

#include "cli/words/names.hpp"

#include <fmt/format.h>

namespace gatherwright::cli {

namespace {

constexpr std::size_t longest_quote = 80;

} // namespace

std::string quoted(std::string_view text) {
  const std::string_view shown = clipped(text, longest_quote);
  std::string result = "\"";
  result += shown;
  if (shown.size() < text.size()) result += "…";
  result += '"';
  return result;
}

std::string option_fault(std::string_view option, std::string_view what, std::string_view instead) {
  const std::string line = instead.empty() ? fmt::format("{}: {}", clipped(option, 100), what)
                                           : fmt::format("{}: {}; {}", clipped(option, 100), what, instead);
  return words::printable(line);
}

} // namespace gatherwright::cli
