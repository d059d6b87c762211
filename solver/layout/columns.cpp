// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/layout/columns.hpp"

#include <algorithm>
#include <limits>
#include <utility>

namespace gatherwright::layout {

namespace {

/// A box is measured in no more parts than this, and what lies in it in as many as it needs. Halves, thirds, quarters
/// and fifths are exact.
constexpr Ticks most_parts = 360;
/// Columns within what columns leave empty, and so on.
constexpr int most_within = 6;

Ticks parts_of(Ticks whole) {
  return std::min(whole, most_parts);
}

__extension__ using Wide = __int128;
std::size_t in_parts(Ticks size, Ticks whole) {
  if (whole <= most_parts) return static_cast<std::size_t>(size);
  return static_cast<std::size_t>((Wide{size} * most_parts + whole - 1) / whole);
}

} // namespace

Columns::Columns(const Strip &strip) : strip_(strip) {
  for (int kind = 0; kind < static_cast<int>(strip.kinds.size()); ++kind) {
    const Kind &of = strip.kinds[kind];
    all_.push_back({kind, false, of.across, of.along});
    if (of.may_turn) all_.push_back({kind, true, of.along, of.across});
  }
  std::stable_sort(all_.begin(), all_.end(), [](const Lying &a, const Lying &b) {
    return a.across < b.across || (a.across == b.across && a.along > b.along);
  });
}

void Columns::offer(std::vector<int> counts, std::vector<double> worths) {
  left_ = std::move(counts);
  worths_ = std::move(worths);
  ways_.clear();
  least_along_ = std::numeric_limits<Ticks>::max();
  for (const Lying &lying : all_)
    if (left_[lying.kind] > 0) {
      ways_.push_back(lying);
      least_along_ = std::min(least_along_, lying.along);
    }
}

int Columns::fill(Ticks across, Ticks along, std::size_t most, Tree &tree, Allowance &allowance) {
  most_ = most;
  allowance_ = &allowance;
  return fill({across, along, 0}, tree);
}

int Columns::fill(Box box, Tree &tree) {
  int filled = -1;
  while (anything_fits(box)) {
    find_columns(box);
    if (columns_.empty()) break;
    const std::vector<Lying> stack = stack_of(choose(box.across));
    const Box column{stack.front().across, box.along, box.within + 1};
    filled = tree.join(Tree::Join::beside, filled, lay(stack, column, tree));
    box.across -= column.across;
  }
  return filled;
}

bool Columns::anything_fits(const Box &box) const {
  if (box.within > most_within || box.along < least_along_) return false;
  for (const Lying &lying : ways_) {
    if (lying.across > box.across) return false;
    if (fits(lying, box)) return true;
  }
  return false;
}

/// The dearest stack of each width that is worth more than any of a lesser one.
void Columns::find_columns(const Box &box) {
  best_.assign(static_cast<std::size_t>(parts_of(box.along)) + 1, 0);
  taken_.clear();
  rows_.clear();
  columns_.clear();
  const std::size_t step = ways_.size() / most_ + 1;
  for (std::size_t way = ways_.size() % step; way < ways_.size() && ways_[way].across <= box.across; way += step) {
    const Lying &lying = ways_[way];
    if (!fits(lying, box)) continue;
    const std::size_t along = in_parts(lying.along, box.along);
    for (int copy = 0; copy < left_[lying.kind]; ++copy)
      if (!add_to_stacks(lying, way, along)) break;
    if (columns_.empty() || best_.back() > columns_.back().worth) {
      if (columns_.empty() || columns_.back().across < lying.across) columns_.push_back({lying.across, 0, 0});
      columns_.back().worth = best_.back();
      columns_.back().rows = rows_.size();
    }
  }
}

/// One more of a kind for every stack; false where none is worth more with it.
bool Columns::add_to_stacks(const Lying &lying, std::size_t way, std::size_t along) {
  const double worth = worths_[lying.kind];
  const std::size_t row = taken_.size();
  taken_.resize(row + best_.size());
  bool changes = false;
  for (std::size_t length = best_.size(); length-- > along;) {
    const double with = best_[length - along] + worth;
    if (with <= best_[length]) continue;
    best_[length] = with;
    taken_[row + length] = 1;
    changes = true;
  }
  allowance_->spend(static_cast<std::int64_t>(best_.size() - along));
  if (changes)
    rows_.push_back({way, along});
  else
    taken_.resize(row);
  return changes;
}

/// The widest of the columns that are worth the most together.
const Columns::Column &Columns::choose(Ticks across) {
  const auto parts = static_cast<std::size_t>(parts_of(across));
  together_.assign(parts + 1, 0);
  last_.assign(parts + 1, -1);
  std::vector<std::size_t> widths;
  for (const Column &column : columns_)
    widths.push_back(in_parts(column.across, across));
  for (std::size_t width = 1; width <= parts; ++width) {
    together_[width] = together_[width - 1];
    for (std::size_t i = 0; i < columns_.size() && widths[i] <= width; ++i)
      if (const double with = together_[width - widths[i]] + columns_[i].worth; with > together_[width]) {
        together_[width] = with;
        last_[width] = static_cast<int>(i);
      }
  }
  allowance_->spend(static_cast<std::int64_t>(parts * columns_.size()));
  int widest = 0;
  for (std::size_t width = parts; width > 0;) {
    widest = std::max(widest, last_[width]);
    width -= last_[width] < 0 ? 1 : widths[last_[width]];
  }
  return columns_[widest];
}

/// Its rectangles, which are taken; the widest first.
std::vector<Columns::Lying> Columns::stack_of(const Column &column) {
  std::vector<Lying> stack;
  std::size_t length = best_.size() - 1;
  for (std::size_t row = column.rows; row-- > 0;) {
    if (!taken_[row * best_.size() + length]) continue;
    length -= rows_[row].along;
    const Lying &lying = ways_[rows_[row].way];
    if (left_[lying.kind] == 0) continue; // taken already, lying the other way
    take(lying.kind);
    stack.push_back(lying);
  }
  std::stable_sort(stack.begin(), stack.end(), [](const Lying &a, const Lying &b) {
    return a.across > b.across || (a.across == b.across && a.along > b.along);
  });
  return stack;
}

/// A stack in a column. Beside what is narrower than the column, the column is parted all along if anything fits there.
int Columns::lay(const std::vector<Lying> &stack, Box box, Tree &tree) {
  std::vector<std::pair<Tree::Join, int>> laid;
  for (const Lying &lying : stack) {
    const Box beside{box.across - lying.across, box.along, box.within};
    if (const int gap = fill(beside, tree); gap >= 0) {
      laid.emplace_back(Tree::Join::beside, gap);
      box.across = lying.across;
    }
    const int piece = tree.piece(strip_, lying.kind, lying.turned);
    laid.emplace_back(Tree::Join::behind, piece);
    box.along -= lying.along;
  }
  int root = fill(box, tree);
  for (std::size_t i = laid.size(); i-- > 0;)
    root = tree.join(laid[i].first, laid[i].second, root);
  return root;
}

} // namespace gatherwright::layout
