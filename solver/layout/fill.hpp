// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/strip.hpp"
#include "solver/layout/tree.hpp"

#include <cstdint>
#include <vector>

namespace gatherwright::layout {

/// In which order rectangles are asked whether they fit, and how each is cut off.
struct Sequence {
  struct Piece {
    int kind = 0;
    bool turned_first = false; ///< of one that may turn: which way is asked first
    bool in_turn = false;      ///< it fits like any other where it fits exactly
    bool across_first = false; ///< the first cut beside it runs across, and leaves the strip's whole width behind it
  };
  std::vector<Piece> pieces;
};

/// Fills a box by a sequence: into its corner goes what fits it exactly both ways, else its length, else its width,
/// else the first that fits at all; then what is left beside it is filled, and what is left behind.
class Filling {
public:
  explicit Filling(const Strip &strip);
  /// What finds no place counts as this of each kind, instead of its area.
  Filling(const Strip &strip, std::vector<double> worth);

  /// The worth of what found no place; exactly 0 where there is none.
  double left_over(const Sequence &sequence, Ticks across, Ticks along, Allowance &allowance);

  /// The layout that was found last. What found no place is not in it.
  Tree tree() const;
  /// What found no place then, as positions in the sequence.
  std::vector<int> without_place() const;

private:
  struct Box {
    Ticks across = 0;
    Ticks along = 0;
  };
  struct Placed {
    int piece = -1; ///< below 0: the box stays empty
    bool turned = false;
    bool across_first = false;
  };
  /// A kind of which there are some without a place: only the first of them in the sequence is asked.
  struct Waiting {
    Ticks across = 0;
    Ticks along = 0;
    bool may_turn = false;
    int kind = 0;
    int piece = 0;
  };
  void line_up(const Sequence &sequence);
  Placed choose(const Box &box);
  int build(std::size_t &at, Tree &tree) const;

  const Strip &strip_;
  std::vector<double> worth_;
  Ticks least_across_ = 0; ///< of all kinds: what is smaller takes none
  Ticks least_along_ = 0;
  const Sequence *sequence_ = nullptr;
  std::vector<Waiting> waiting_;
  std::vector<int> first_;     ///< of each kind, the first piece in the sequence
  std::vector<int> next_;      ///< of each piece, the next of its kind; below 0: none
  std::vector<Placed> placed_; ///< box by box, in the order in which they are filled
  std::vector<Box> boxes_;
  std::int64_t asked_ = 0;
};

} // namespace gatherwright::layout
