// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cloth/limits.hpp"

#include <string>
#include <string_view>

/// Where the limits of a cloth come from, as sentences.
namespace gatherwright::words {

/// One reason of a limit, with the figures behind it and its published source where it has one. No full stop.
std::string reason(cloth::Reason reason, const cloth::Explanation &limits);

/// "common practice, no source"
std::string_view standing(cloth::Standing standing);

} // namespace gatherwright::words
