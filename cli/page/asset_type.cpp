// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page/assets.hpp"

#include <array>
#include <utility>

namespace gatherwright::page {

std::string_view type_of(std::string_view name) {
  using Kind = std::pair<std::string_view, std::string_view>;
  static constexpr std::array kinds{Kind{".html", "text/html; charset=utf-8"}, Kind{".css", "text/css; charset=utf-8"},
                                    Kind{".js", "text/javascript; charset=utf-8"}, Kind{".svg", "image/svg+xml"},
                                    Kind{".pdf", "application/pdf"}};
  for (const auto &[ending, type] : kinds)
    if (name.ends_with(ending)) return type;
  return "text/plain; charset=utf-8";
}

} // namespace gatherwright::page
