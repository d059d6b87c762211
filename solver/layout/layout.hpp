// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace gatherwright::layout {

enum class Run {
  across, ///< from side to side
  along,  ///< down the strip
};

/// Where a copy lies: its corner nearest the strip's first side and its end.
struct Placement {
  std::size_t rectangle = 0; ///< index into the problem's
  int copy = 1;              ///< from 1
  double across = 0;
  double along = 0;
  bool turned = false;
};

/// A straight cut. One that runs across is at a distance along, from and to distances across; the reverse else.
struct Cut {
  Run run = Run::across;
  double at = 0;
  double from = 0;
  double to = 0;
};

/// Whole numbers that stand for lengths: number x times / over.
struct Unit {
  double times = 1;
  double over = 1;

  double length(std::int64_t number) const { return static_cast<double>(number) * times / over; }
  bool operator==(const Unit &) const = default;
};

/// Proof that no layout is shorter than `least` along units.
///
/// Sizes are counted in units, to the nearest. Rectangles set aside, one kind after
/// another, are too wide for any that is left to lie beside them: each takes its own length, and the proof is of the
/// rest.
///
/// Bars across: each rectangle is cut into bars of its width, one unit along. A line across the strip meets bars of at
/// most `width` together, no more of a kind than there are copies, and so no more than K of their price; all bars'
/// price over K is the least number of lines. Bars along: the same with the roles changed; were the rest shorter than
/// its least, the price of all would be more than the strip's width times what a line along can meet. What may turn
/// counts as the cheaper of its two ways.
///
/// The least is moreover a sum of rectangles' lengths, since every layout's length can be made to be one: it is lifted
/// to the next that there is.
struct Certificate {
  enum class Kind {
    tallest, ///< the longest of the rest is all the proof there is (and the area of all)
    bars_across,
    bars_along,
  };
  Kind kind = Kind::tallest;
  Unit across;
  Unit along;
  std::int64_t width = 0;           ///< the strip's, in units across
  std::vector<std::size_t> aside;   ///< rectangles, in the order in which they are set aside
  std::vector<std::int64_t> price;  ///< of each rectangle's bar as it is given; >= 0
  std::vector<std::int64_t> turned; ///< of its bar turned, where it may
  std::int64_t least = 0;           ///< of the rest alone
};

struct Layout {
  std::vector<Placement> placements; ///< in the problem's order, then by copy
  std::vector<Cut> cuts; ///< each runs straight through the part it divides; first divided is width x length
  double length = 0;
  double bound = 0;      ///< no layout is shorter
  bool shortest = false; ///< proved: length is bound
  /// What the certificate alone proves; `bound` beyond it is from an exhaustive search.
  double certified = 0;
  Certificate certificate;
};

} // namespace gatherwright::layout
