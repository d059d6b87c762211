// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace gatherwright::page {

/// 160 bits of the system's chance as 40 hexadecimal digits. Throws std::system_error where it gives none.
std::string new_secret();

/// Whether what was given is the secret. It takes as long however much of it is right.
bool is_secret(std::string_view given, std::string_view secret);

} // namespace gatherwright::page
