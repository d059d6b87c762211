// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/cloths.hpp"
#include "gatherwright/job.hpp"

#include <optional>
#include <span>
#include <vector>

/// Pieces as they are cut, marked and laid on their cloths, and what may be wrong with them. Lengths are millimetres.
namespace gatherwright {

/// A size at which a piece is cut, its allowances in.
struct CutSize {
  double exact = 0;
  double tape = 0; ///< the nearest step
};

/// A mark of a join on a piece's side. Distances from the piece's cut corner at the side's start.
struct PieceMark {
  Side side = Side::top;
  EdgeAt edge;
  int mark = 0; ///< of the join's `marks`
  double exact = 0;
  double tape = 0;
};

///   1. Piece and join have a mark at the same step wherever the allowance and the part's beginning are on the tape.
struct PiecePlan {
  double across = 0; ///< between seam lines
  double along = 0;
  BySide<double> allowance;
  CutSize cut_across;
  CutSize cut_along;
  std::vector<PieceMark> marks;                         ///< by side in the order of `all_sides`, then by distance
  std::optional<std::vector<PieceMark>> marks_mirrored; ///< of the second of a pair, turned over left for right
  bool too_wide = false;                                ///< for its cloth: it is not laid
  bool within_limits = true;                            ///< no finding is of it
};

/// Where a copy of a piece lies on its cloth: its corner nearest the first selvedge and the cut end, from the usable
/// edge.
struct Placement {
  PieceId piece;
  int copy = 1;   ///< from 1
  int wearer = 0; ///< of many whose pieces lie together
  double across = 0;
  double along = 0;
  bool turned = false;
};

/// A straight cut. One that runs across is at a distance along, from and to distances across; the reverse else.
struct Cut {
  enum class Run { across, along };
  Run run = Run::across;
  double at = 0;
  double from = 0;
  double to = 0;
};

/// What a layout leaves of the cloth that there is. Millimetres, as bought.
///   2. Lengths chosen within the cloth there is are the best of all tape steps whose pieces can be laid.
struct StockPlan {
  double is = 0;
  double left = 0;     ///< below 0 where the pieces take more than there is
  bool proved = false; ///< no choice of the lengths within it is better; of fixed ones, whether they come out of it
};

/// Pieces laid on a cloth as it is once washed.
///   3. What is cut out of a lay are the pieces, each whole, and no lay is longer than it need be where it says so.
struct ClothPlan {
  Cloth cloth;
  double usable = 0;                             ///< of the width
  double length = 0;                             ///< the lay
  double bound = 0;                              ///< no layout is shorter
  bool shortest = false;                         ///< proved to a step of the tape
  double used = 0;                               ///< share of length x usable that is pieces
  double buy = 0;                                ///< before the wash
  double buy_by_step = 0;                        ///< that, rounded up to the step the cloth is sold in
  std::optional<StockPlan> stock = std::nullopt; ///< of a cloth of which the job says how much there is
  std::vector<Placement> lay;
  std::vector<Cut> cuts; ///< in an order in which each runs straight through the part it divides
};

/// The pieces of one wearer as they are cut: as the job's pieces.
struct WearersPieces {
  struct Size {
    double across = 0; ///< cut size, millimetres
    double along = 0;
    bool too_wide = false; ///< left out
  };
  std::vector<Size> sizes;
};

/// All wearers' pieces on one bolt of each cloth, in the order of `cloths_of`; no entry for a cloth of which nothing is
/// laid. Nothing where there are more pieces than `bounds::most_cut`.
///   4. One wearer's pieces laid by themselves are laid as in the plan.
std::optional<std::vector<ClothPlan>> lay_together(const Job &job, std::span<const WearersPieces> wearers);

namespace finding {

/// A piece does not go into the width of its cloth, nor turned where it may be. It is not laid. Millimetres.
struct TooWide {
  PieceId at;
  double cut_across = 0;
  double usable = 0;
  std::optional<int> widths = std::nullopt; ///< that it could be pieced from; nothing where the seams would take it all
};

/// A part of a side ends beyond the side. Distances from the side's start, millimetres.
struct PastTheEnd {
  PartAt at;
  double end = 0;
  double side = 0; ///< its length
};

/// A part of a side begins before another ends. Distances from the side's start, millimetres.
struct Overlaps {
  PartAt at;
  int other = 0; ///< the part that begins before it, or with it
  double begins = 0;
  double other_end = 0;
};

/// Pieces that hang on nothing to be found take more of their cloth than there is; the rest is planned without regard
/// to that. As bought, millimetres.
struct OverStock {
  ClothId at;
  double buy = 0; ///< of all pieces of the cloth, as planned
  double stock = 0;
};

} // namespace finding

namespace note {

/// Pieces of a cloth are not laid on it.
struct NotLaid {
  enum class Why {
    no_width, ///< the cloth's is not known
    too_wide, ///< each of its pieces is wider than it
    lost,     ///< one is so small beside the others that it is lost in the rounding of their sums
  };
  PieceId first; ///< of the pieces of that cloth
  Why why;
};

} // namespace note

namespace refusal {

/// A piece comes out at no size.
struct NoSize {
  PieceId at;
  bool across = true; ///< false: along
  double is = 0;
};

/// A part of a side comes to begin before the side does.
struct BeforeTheSide {
  PartAt at;
  double is = 0; ///< below 0
};

} // namespace refusal

} // namespace gatherwright
