// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/layout/acceptance.hpp"

#include <algorithm>
#include <utility>

namespace gatherwright::layout {

namespace {

/// Changes ago: where most rectangles differ, more goes wrong by keeping what is worse for long.
std::size_t history_of(const Strip &strip) {
  return 2 * static_cast<int>(strip.kinds.size()) > strip.rectangles() ? 60 : 120;
}

/// The largest first.
Sequence first_sequence(const Strip &strip) {
  Sequence sequence;
  for (int kind = 0; kind < static_cast<int>(strip.kinds.size()); ++kind)
    for (int copy = 0; copy < strip.kinds[kind].count; ++copy)
      sequence.pieces.push_back({kind, false, false, true});
  std::stable_sort(sequence.pieces.begin(), sequence.pieces.end(), [&](const auto &a, const auto &b) {
    return strip.kinds[a.kind].area() > strip.kinds[b.kind].area();
  });
  return sequence;
}

} // namespace

Sequence changed(Sequence sequence, const Changes &changes, Random &random) {
  std::vector<Sequence::Piece> &pieces = sequence.pieces;
  const int size = static_cast<int>(pieces.size());
  const int what = random.below(8 + (changes.in_turn ? 1 : 0) + (changes.turned ? 2 : 0));
  const int at = random.below(size);
  const int other = random.below(size);
  const auto from = pieces.begin();
  if (what < 3)
    std::swap(pieces[at], pieces[other]);
  else if (what < 5 && at < other)
    std::rotate(from + at, from + at + 1, from + other + 1);
  else if (what < 5)
    std::rotate(from + other, from + at, from + at + 1);
  else if (what < 8)
    pieces[at].across_first = !pieces[at].across_first;
  else if (what == 8 && changes.in_turn)
    pieces[at].in_turn = !pieces[at].in_turn;
  else
    pieces[at].turned_first = !pieces[at].turned_first;
  return sequence;
}

Acceptance::Acceptance(const Strip &strip, bool in_turn, std::uint64_t seed)
    : strip_(strip), filling_(strip), random_(seed), sequence_(first_sequence(strip)) {
  for (const Kind &kind : strip.kinds)
    changes_.turned = changes_.turned || kind.may_turn;
  changes_.in_turn = in_turn;
}

std::optional<Tree> Acceptance::find(Ticks length, Allowance &allowance) {
  double left = filling_.left_over(sequence_, strip_.width, length, allowance);
  if (left <= 0) return filling_.tree();
  std::vector<double> earlier(history_of(strip_), left);
  for (std::size_t round = 0; !allowance.spent(); ++round) {
    Sequence sequence = changed(sequence_, changes_, random_);
    const double next = filling_.left_over(sequence, strip_.width, length, allowance);
    if (next <= 0) {
      Tree tree = filling_.tree();
      sequence_ = std::move(sequence);
      return tree;
    }
    double &before = earlier[round % earlier.size()];
    if (next <= before || next <= left) {
      left = next;
      sequence_ = std::move(sequence);
    }
    before = std::min(before, left);
  }
  return std::nullopt;
}

} // namespace gatherwright::layout
