// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/strip.hpp"
#include "solver/layout/tree.hpp"

#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

namespace gatherwright::layout {

/// Fills boxes with columns side by side, each a stack of rectangles one behind another. What a column of each width is
/// worth at most is known from all stacks that fit it, and which columns go together best from all widths that fit the
/// box; the widest of these is laid, and the rest of the box is looked at anew. Beside the narrower rectangles of a
/// stack, and behind it, what fits is laid by the same rule.
class Columns {
public:
  explicit Columns(const Strip &strip);

  /// What there is to be laid from now on: of each kind how many, and what one of them is worth.
  void offer(std::vector<int> counts, std::vector<double> worths);
  /// How many of each kind are left.
  const std::vector<int> &left() const { return left_; }
  /// As many as there were at a time.
  void put_back(std::vector<int> left) { left_ = std::move(left); }
  void take(int kind) { --left_[static_cast<std::size_t>(kind)]; }

  /// Lays what fits a box; its root in the tree, below 0 where that is nothing. Of more than `most` ways for rectangles
  /// to lie, only some are looked at.
  int fill(Ticks across, Ticks along, std::size_t most, Tree &tree, Allowance &allowance);

private:
  /// A way for a rectangle to lie.
  struct Lying {
    int kind = 0;
    bool turned = false;
    Ticks across = 0;
    Ticks along = 0;
  };
  /// The dearest stack of a width: how many rows of `taken_` it is of.
  struct Column {
    Ticks across = 0;
    double worth = 0;
    std::size_t rows = 0;
  };
  /// A box and how many columns it lies in.
  struct Box {
    Ticks across = 0;
    Ticks along = 0;
    int within = 0;
  };
  int fill(Box box, Tree &tree);
  bool fits(const Lying &lying, const Box &box) const {
    return left_[static_cast<std::size_t>(lying.kind)] > 0 && lying.across <= box.across && lying.along <= box.along;
  }
  bool anything_fits(const Box &box) const;
  void find_columns(const Box &box);
  bool add_to_stacks(const Lying &lying, std::size_t way, std::size_t along);
  const Column &choose(Ticks across);
  std::vector<Lying> stack_of(const Column &column);
  int lay(const std::vector<Lying> &stack, Box box, Tree &tree);

  const Strip &strip_;
  std::vector<Lying> all_;  ///< ways to lie: the narrowest first, then the longest
  std::vector<Lying> ways_; ///< those of what is on offer
  std::vector<int> left_;
  std::vector<double> worths_;
  Ticks least_along_ = 0;
  std::size_t most_ = 0;
  Allowance *allowance_ = nullptr;

  /// Of each length up to the box's, in parts of it, what a stack is worth at most.
  std::vector<double> best_;
  /// Row by row, a rectangle each that stacks were offered: of each length whether the best so long took it.
  std::vector<std::uint8_t> taken_;
  struct Row {
    std::size_t way = 0;
    std::size_t along = 0; ///< in parts
  };
  std::vector<Row> rows_;
  std::vector<Column> columns_;
  std::vector<double> together_; ///< of each width in parts, what columns are worth together
  std::vector<int> last_;        ///< of each width, the last of these columns; below 0: as one part less
};

} // namespace gatherwright::layout
