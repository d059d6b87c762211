// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/report/json_text.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace gatherwright::page {

/// The text with U+FFFD for every byte that is no UTF-8, so that it can be shown.
std::string as_utf8(std::string_view text);

/// A member that may have nothing.
void text_or_null(report::JsonText &json, report::Key name, const std::optional<std::string> &value);

} // namespace gatherwright::page
