// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <functional>
#include <string_view>

/// How a long answer is told in pieces, so that it need not be held whole.
namespace gatherwright::report {

/// Takes the next piece.
using Say = std::function<void(std::string_view piece)>;

/// Bytes: an answer no longer than this is never told in pieces.
inline constexpr std::size_t most_held = 8 << 20;

/// Says what is held and forgets it once it is too much, where there is someone to say it to.
template <class Text> void say_if_long(Text &held, const Say &say) {
  if (!say || held.size() <= most_held) return;
  say(held);
  held.clear(); // its room stays
}

} // namespace gatherwright::report
