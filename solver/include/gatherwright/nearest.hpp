// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace gatherwright {

/// The one of `known` that `word` was most likely meant to be, for a hint. A change is a code point put in, left out,
/// changed or exchanged with its neighbour (optimal string alignment); a difference of ASCII case alone counts half a
/// change, however many letters it is in.
///   1. The nearest word is the least number of changes away, the first of those.
///   2. An equal word comes before one that differs in case, and that before one changed.
///   3. More changes than a third of one letter more than the longer word has, or as many as the shorter has letters,
///      are too many for an offer.
///   4. Words of more than 64 code points are never offered and get no offer.
std::optional<std::string_view> nearest(std::string_view word, std::span<const std::string> known);

} // namespace gatherwright
