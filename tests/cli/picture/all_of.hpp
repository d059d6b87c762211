// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/drawing.hpp"

#include <variant>
#include <vector>

namespace gatherwright::paper {

/// All lines, texts or groups that stand on a page by themselves.
template <class Drawn> std::vector<Drawn> all(const Page &page) {
  std::vector<Drawn> found;
  for (const Item &item : page.items)
    if (const auto *drawn = std::get_if<Drawn>(&item.is)) found.push_back(*drawn);
  return found;
}

} // namespace gatherwright::paper
