// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/layout/fill.hpp"

#include <algorithm>
#include <limits>
#include <utility>

namespace gatherwright::layout {

namespace {

std::vector<double> areas(const Strip &strip) {
  std::vector<double> areas;
  for (const Kind &kind : strip.kinds)
    areas.push_back(kind.area());
  return areas;
}

} // namespace

Filling::Filling(const Strip &strip) : Filling(strip, areas(strip)) {}

Filling::Filling(const Strip &strip, std::vector<double> worth)
    : strip_(strip), worth_(std::move(worth)), least_across_(strip.width) {
  least_along_ = std::numeric_limits<Ticks>::max();
  for (const Kind &kind : strip.kinds) {
    least_across_ = std::min(least_across_, kind.least_across());
    least_along_ = std::min(least_along_, kind.least_along());
  }
}

void Filling::line_up(const Sequence &sequence) {
  sequence_ = &sequence;
  next_.resize(sequence.pieces.size());
  first_.assign(strip_.kinds.size(), -1);
  for (int i = static_cast<int>(sequence.pieces.size()); i-- > 0;) {
    int &first = first_[sequence.pieces[i].kind];
    next_[i] = first;
    first = i;
  }
  waiting_.clear();
  for (int kind = 0; kind < static_cast<int>(strip_.kinds.size()); ++kind) {
    const Kind &of = strip_.kinds[kind];
    if (first_[kind] >= 0) waiting_.push_back({of.across, of.along, of.may_turn, kind, first_[kind]});
  }
}

double Filling::left_over(const Sequence &sequence, Ticks across, Ticks along, Allowance &allowance) {
  line_up(sequence);
  double left = 0;
  for (const Sequence::Piece &piece : sequence.pieces)
    left += worth_[piece.kind];
  placed_.clear();
  boxes_.assign(1, {across, along});
  asked_ = static_cast<std::int64_t>(sequence.pieces.size());
  while (!boxes_.empty()) {
    const Box box = boxes_.back();
    boxes_.pop_back();
    const Placed placed = choose(box);
    placed_.push_back(placed);
    if (placed.piece < 0) continue;
    const Kind &kind = strip_.kinds[sequence.pieces[placed.piece].kind];
    left -= worth_[sequence.pieces[placed.piece].kind];
    const Ticks wide = placed.turned ? kind.along : kind.across;
    const Ticks high = placed.turned ? kind.across : kind.along;
    boxes_.push_back({placed.across_first ? box.across : wide, box.along - high});
    boxes_.push_back({box.across - wide, placed.across_first ? high : box.along});
  }
  allowance.spend(asked_);
  return waiting_.empty() ? 0 : left;
}

Filling::Placed Filling::choose(const Box &box) {
  ++asked_;
  if (box.across < least_across_ || box.along < least_along_) return {};
  std::size_t best = 0;
  int worth = 0;
  bool turned = false;
  const auto ask = [&](std::size_t i, Ticks wide, Ticks high, bool turn) {
    if (wide > box.across || high > box.along) return;
    const int fits = sequence_->pieces[waiting_[i].piece].in_turn
                         ? 1
                         : 1 + (wide == box.across ? 1 : 0) + (high == box.along ? 2 : 0);
    const int before = waiting_[i].piece - waiting_[best].piece;
    if (fits < worth ||
        (fits == worth && (before > 0 || (before == 0 && turn != sequence_->pieces[waiting_[i].piece].turned_first))))
      return;
    worth = fits;
    best = i;
    turned = turn;
  };
  for (std::size_t i = 0; i < waiting_.size(); ++i) {
    ask(i, waiting_[i].across, waiting_[i].along, false);
    if (waiting_[i].may_turn) ask(i, waiting_[i].along, waiting_[i].across, true);
  }
  asked_ += static_cast<std::int64_t>(waiting_.size());
  if (worth == 0) return {};
  Waiting &taken = waiting_[best];
  const Placed placed{taken.piece, turned, sequence_->pieces[taken.piece].across_first};
  taken.piece = next_[taken.piece];
  if (taken.piece < 0) {
    taken = waiting_.back();
    waiting_.pop_back();
  }
  return placed;
}

Tree Filling::tree() const {
  Tree tree;
  std::size_t at = 0;
  tree.root = build(at, tree);
  return tree;
}

int Filling::build(std::size_t &at, Tree &tree) const {
  const Placed &placed = placed_[at++];
  if (placed.piece < 0) return -1;
  const int piece = tree.piece(strip_, sequence_->pieces[placed.piece].kind, placed.turned);
  const int beside = build(at, tree);
  const int behind = build(at, tree);
  if (placed.across_first) return tree.join(Tree::Join::behind, tree.join(Tree::Join::beside, piece, beside), behind);
  return tree.join(Tree::Join::beside, tree.join(Tree::Join::behind, piece, behind), beside);
}

std::vector<int> Filling::without_place() const {
  std::vector<int> pieces;
  for (const Waiting &waiting : waiting_)
    for (int piece = waiting.piece; piece >= 0; piece = next_[piece])
      pieces.push_back(piece);
  return pieces;
}

} // namespace gatherwright::layout
