// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/words/listed.hpp"

#include <fmt/format.h>

#include <string_view>

namespace gatherwright::words {

std::string listed(const std::vector<std::string> &things) {
  std::string text = things.front();
  for (std::size_t i = 1; i < things.size(); ++i)
    text += (i + 1 == things.size() ? " and " : ", ") + things[i];
  return text;
}

namespace {

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

bool hisses(std::string_view name) {
  for (const std::string_view end : {"ss", "x", "z", "ch", "sh"})
    if (name.ends_with(end)) return true;
  return false;
}

bool ends_in_consonant_y(std::string_view name) {
  constexpr std::string_view vowels = "aeiou";
  return name.size() > 1 && name.ends_with('y') && is_letter(name[name.size() - 2]) &&
         vowels.find(name[name.size() - 2]) == std::string_view::npos;
}

} // namespace

std::string so_many(std::size_t count, const std::string &name) {
  if (count == 1) return name;
  const bool is_word = name.size() > 1 && is_letter(name.back()) && is_letter(name[name.size() - 2]);
  if (!is_word) return fmt::format("{} of {}", count, name);
  if (hisses(name)) return fmt::format("{} {}es", count, name);
  if (name.ends_with('s')) return fmt::format("{} {}", count, name);
  if (ends_in_consonant_y(name)) return fmt::format("{} {}ies", count, name.substr(0, name.size() - 1));
  if (name.ends_with("half") || name.ends_with("scarf"))
    return fmt::format("{} {}ves", count, name.substr(0, name.size() - 1));
  return fmt::format("{} {}s", count, name);
}

} // namespace gatherwright::words
