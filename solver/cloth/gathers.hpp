// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/cloth.hpp"
#include "solver/cloth/ridge.hpp"

#include <optional>
#include <span>
#include <vector>

/// How gathers are run: stitches, rows, threads, folds and cords. Lengths in millimetres.
namespace gatherwright::cloth {

/// A whole number of stitches in `stretch`: the ceiling, a value within 1e-9 of a whole number being that number; none
/// for a stretch of 0. `stitch` > 0, hole to hole. A count that would not fit stays at the largest int.
int stitches_in(double stretch, double stitch);

/// The gaps of a join between its marks, as the gathering thread meets them.
struct Gap {
  double long_length = 0;
  bool gathered = false; ///< gather or gauge
};

/// Breaks the gathered stretches into threads at marks. `gaps[i]` runs from mark i to mark i + 1 (to mark 0 after the
/// last of a ring). Neighbouring gathered gaps are one run, on a ring also over its start; a ring gathered all round is
/// broken there.
///
/// Each run becomes the fewest threads within `longest` (lengths of cloth, tails apart), their longest as short as
/// possible, then the sum of their squares least, then the longer first. A gap that passes `longest` by itself is a
/// thread by itself and the others are judged without it. Lengths that agree within 1e-9 of the longer are equal.
/// Threads are sorted by `from`; work grows hardly faster than the number of gaps.
std::vector<Thread> threads(std::span<const Gap> gaps, bool closed, double stitch, double longest, double tail);

/// The seam that rows are run beside.
struct SeamOfRows {
  double allowance = 0; ///< from the cut edge to the stitching line; 0: not given
  bool inches = false;  ///< the tape is read in inches, feet or yards
};

/// Distances of rows, millimetres, the first nearest to the cut edge.
struct Rows {
  std::vector<double> at;        ///< from the cut edge
  std::vector<double> from_seam; ///< from the stitching line, below 0 beyond it; empty without an allowance
};

/// Where rows lie. Without an allowance the first is 6 mm from the cut edge (1/4 in) and each next 4 mm (1/8 in) below;
/// within 1/8 to 1/4 in between rows (Watson, "Textiles and Clothing", 1907). With one the last is 2 mm (1/16 in)
/// inside it and each other 4 mm (1/8 in) nearer the cut edge, none nearer than 3 mm (1/8 in) to that: where they do
/// not fit so they lie evenly. An allowance under 6 mm (1/4 in) is too narrow for that, and they lie as without. Common
/// practice; Baldt, "Clothing for Women", gathers on the seam line and 1/4 in below.
Rows rows_at(int rows, const SeamOfRows &seam);

/// Rows where the job does not say: two, or three where any segment is gauged.
int rows_of(const Gathering &gathering, bool gauged);

/// How a join's gathering is run; nothing where no gap is gathered.
std::optional<GatheringPlan> gathering_plan(std::span<const Gap> gaps, bool closed, const Gathering &gathering,
                                            bool gauged, const SeamOfRows &seam);

/// Cartridge pleats of one gauged segment: a fold takes two stitches and is one stitch deep.
struct CartridgeFolds {
  int folds = 0;
  double depth = 0;
  double pitch = 0; ///< along the band, fold to fold; 0 where there is no fold
};

CartridgeFolds cartridge_folds(double long_length, double band, double stitch);

/// The cord of a casing: the long edges of all the segments it is drawn through, and a tail at either end.
double cord(double long_length, double tail);

} // namespace gatherwright::cloth
