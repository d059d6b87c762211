// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>

namespace gatherwright::cli {

/// Writes all of a text to an open file; false, with `errno` set, where it cannot.
bool write_all(int file, std::string_view text);

} // namespace gatherwright::cli
