// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/bound.hpp"
#include "solver/layout/strip.hpp"

#include <optional>
#include <vector>

namespace gatherwright::layout {

/// What a length across or along the strip is worth at most to bars, less what the rest of it is worth at most: what a
/// box of that length takes away.
class Taken {
public:
  /// `choices` as worth() has them, within the length.
  Taken(const std::vector<Worth> &choices, Ticks length);

  double whole() const { return whole_; }
  double operator()(Ticks size) const {
    if (!table_.empty()) return table_[static_cast<std::size_t>(size)];
    return looked_up(length_ - size);
  }
  /// What a length is worth at most.
  double within(Ticks size) const { return whole_ - (*this)(length_ - size); }

private:
  double looked_up(Ticks rest) const;

  std::vector<Worth> choices_;
  Ticks length_;
  double whole_ = 0;
  std::vector<double> table_; ///< where the length is not too great for it; else:
  Ticks bucket_ = 1;
  std::vector<int> buckets_; ///< of each such part of the length, the last choice before it
};

/// One way to measure what a box of some rectangles leaves empty in a layout of a length, and how much may be left
/// empty in all. A line through the box meets the box's rectangles, which are worth what they are, and beside them what
/// the rest of the line is worth at most.
struct Measure {
  Run run = Run::across;
  Taken taken;
  std::vector<double> of_kind; ///< what a rectangle is worth, at its cheapest
  double all = 0;              ///< what all rectangles are worth
  double rounding = 0;         ///< what sums of worths may be off
  double allowed = 0;          ///< below 0: there is no layout

  double empty(Ticks across, Ticks along, double worth) const {
    return run == Run::across ? static_cast<double>(along) * taken(across) - worth
                              : static_cast<double>(across) * taken(along) - worth;
  }

  /// Whether a box is too small for what is not worth that much of all.
  bool too_small(Ticks across, Ticks along, double worth) const {
    const double most = run == Run::across ? static_cast<double>(along) * taken.within(across)
                                           : static_cast<double>(across) * taken.within(along);
    return all - worth > most + rounding;
  }
};

/// Bars at these prices in a layout of that length; nothing where they have too many sums.
std::optional<Measure> measure(const Strip &strip, const Prices &prices, Run run, Ticks length);

/// Bars that are worth their size: area.
Prices sizes_as_prices(const Strip &strip, Run run);

} // namespace gatherwright::layout
