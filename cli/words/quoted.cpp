// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/quoted.hpp"

#include "cli/words/names.hpp"

#include <fmt/format.h>

namespace gatherwright::cli {

namespace {

constexpr std::size_t longest_quote = 80;

} // namespace

std::string_view clipped(std::string_view text, std::size_t bytes) {
  if (text.size() <= bytes) return text;
  while (bytes > 0 && (static_cast<unsigned char>(text[bytes]) & 0xc0U) == 0x80U)
    --bytes;
  return text.substr(0, bytes);
}

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
