// SPDX-License-Identifier: GPL-3.0-or-later
#include "gatherwright/nearest.hpp"

#include "solver/text/script.hpp"

#include <algorithm>
#include <array>

namespace gatherwright {
namespace {

constexpr std::size_t longest_word = 64;

// A word as code points, ASCII letters in lower case. A size above `longest_word` says that it is longer than is looked
// at.
struct Letters {
  std::array<char32_t, longest_word> code{};
  std::size_t size = 0;
};

Letters letters_of(std::string_view word) {
  Letters letters;
  for (std::size_t at = 0; at < word.size();) {
    const Character sign = character_at(word, at);
    at += sign.bytes;
    if (letters.size == longest_word) return {letters.code, longest_word + 1};
    letters.code[letters.size++] = sign.code >= 'A' && sign.code <= 'Z' ? sign.code - 'A' + 'a' : sign.code;
  }
  return letters;
}

// Optimal string alignment distance, or anything above `limit` where it is above that.
std::size_t changes(const Letters &a, const Letters &b, std::size_t limit) {
  if (std::max(a.size, b.size) - std::min(a.size, b.size) > limit) return limit + 1;
  std::array<std::array<std::size_t, longest_word + 1>, 3> rows;
  for (std::size_t j = 0; j <= b.size; ++j)
    rows[0][j] = j;
  for (std::size_t i = 1; i <= a.size; ++i) {
    auto &row = rows[i % 3];
    const auto &above = rows[(i + 2) % 3];
    const auto &two_above = rows[(i + 1) % 3];
    row[0] = i;
    std::size_t least = i;
    for (std::size_t j = 1; j <= b.size; ++j) {
      const std::size_t changed = above[j - 1] + (a.code[i - 1] == b.code[j - 1] ? 0 : 1);
      row[j] = std::min({above[j] + 1, row[j - 1] + 1, changed});
      if (i > 1 && j > 1 && a.code[i - 1] == b.code[j - 2] && a.code[i - 2] == b.code[j - 1])
        row[j] = std::min(row[j], two_above[j - 2] + 1);
      least = std::min(least, row[j]);
    }
    // An exchange skips a row at the cost of one; the row it skips holds at least one less than this one.
    if (least > limit + 1) return limit + 1;
  }
  return rows[a.size % 3][b.size];
}

} // namespace

std::optional<std::string_view> nearest(std::string_view word, std::span<const std::string> known) {
  const Letters wanted = letters_of(word);
  if (wanted.size > longest_word) return std::nullopt;
  std::optional<std::string_view> best;
  std::size_t best_halves = 0;
  for (const std::string &name : known) {
    if (name.size() > 4 * longest_word) continue;
    const Letters letters = letters_of(name);
    if (letters.size > longest_word) continue;
    std::size_t limit = (std::max(wanted.size, letters.size) + 1) / 3;
    if (best) limit = std::min(limit, best_halves / 2);
    const std::size_t distance = changes(wanted, letters, limit);
    if (distance > limit || (distance > 0 && distance >= std::min(wanted.size, letters.size))) continue;
    const std::size_t halves = 2 * distance + (distance == 0 && name != word ? 1 : 0);
    if (best && halves >= best_halves) continue;
    best = name;
    best_halves = halves;
  }
  return best;
}

} // namespace gatherwright
