// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace gatherwright {

/// The one of `known` that `word` was most likely meant to be, for a hint: the least number of code points put in, left
/// out, changed or exchanged with their neighbour (optimal string alignment); a difference of ASCII case alone counts
/// half a change, however many letters it is in. Ties go to the first. Nothing where even the best takes more changes
/// than a third of the longer of the two, one added for short words, or would leave no letter of the shorter. Words of
/// more than 64 code points are never offered and get no offer.
std::optional<std::string_view> nearest(std::string_view word, std::span<const std::string> known);

} // namespace gatherwright
