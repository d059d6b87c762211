// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>

namespace gatherwright::tests {

inline bool holds(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

} // namespace gatherwright::tests
