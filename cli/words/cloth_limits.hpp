// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/cloth/limits.hpp"

#include <string>
#include <string_view>

/// Where the limits of a cloth come from, as sentences.
namespace gatherwright::words {

/// One reason of a limit, with the figures behind it and its published source where it has one. No full stop.
/// `again`: its source was told before, and is left out.
std::string reason(cloth::Reason reason, const cloth::Explanation &limits, bool again = false);

/// "common practice, no source"
std::string_view standing(cloth::Standing standing);

/// The same in a word or two, for a table: "common practice".
std::string_view standing_in_short(cloth::Standing standing);

/// "a curtain"
std::string_view use(Use use);

} // namespace gatherwright::words
