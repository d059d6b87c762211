// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/limits.hpp"

#include <string>
#include <string_view>

/// Where the limits of a cloth come from, as sentences.
namespace gatherwright::words {

/// One reason of a limit, with the figures behind it and its published source where it has one. No full stop.
/// `again`: its source was told before, and is left out.
std::string reason(cloth::Reason reason, const cloth::Explanation &limits, bool again = false);

/// "common practice, no source"
std::string_view grounds(cloth::Grounds grounds);

/// The same in a word or two, for a table: "common practice".
std::string_view grounds_in_short(cloth::Grounds grounds);

/// "a curtain"
std::string_view use(Use use);

} // namespace gatherwright::words
