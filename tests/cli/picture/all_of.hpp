// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"

#include <algorithm>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace gatherwright::paper {

template <class Drawn> void add_all(const std::vector<Item> &items, std::vector<Drawn> &found) {
  for (const Item &item : items)
    if (const auto *group = std::get_if<Group>(&item.is); group && group->shows)
      add_all(group->items, found);
    else if (const auto *drawn = std::get_if<Drawn>(&item.is))
      found.push_back(*drawn);
}

/// All lines, texts or groups that stand on a page by themselves, or in what shows a stretch or a mark.
template <class Drawn> std::vector<Drawn> all(const Page &page) {
  std::vector<Drawn> found;
  add_all(page.items, found);
  return found;
}

/// Whether some text of a page has this in it.
inline bool says(const Page &page, std::string_view part) {
  const std::vector<Text> texts = all<Text>(page);
  return std::any_of(texts.begin(), texts.end(),
                     [&](const Text &text) { return text.says.find(part) != std::string::npos; });
}

} // namespace gatherwright::paper
