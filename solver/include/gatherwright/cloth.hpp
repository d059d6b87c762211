// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/kind.hpp"
#include "gatherwright/quantity.hpp"
#include "gatherwright/shared_text.hpp"

#include <array>
#include <optional>
#include <string>
#include <vector>

/// A cloth, how it is gathered, and what it takes of fullness. All lengths are between seam lines.
namespace gatherwright {

/// What a join is for, where other limits are usual: a skirt into its waistband, a curtain into its heading.
enum class Use { skirt, curtain };

/// A gathered test strip: `cut` long before gathering, `tight` drawn up as far as it goes, `good` from the shortest to
/// the longest length at which it looks right.
struct Swatch {
  Length cut;
  std::optional<Length> tight;
  std::optional<std::array<Length, 2>> good;
  std::optional<Length> stitch; ///< hole to hole; the gathering's own where it is left out
};

/// What the first wash takes, as shares of the cloth as it was bought: 0 to below 1/2.
struct Shrinkage {
  double along = 0;
  double across = 0;

  friend constexpr bool operator==(const Shrinkage &, const Shrinkage &) = default;
};

/// How much of a cloth there is, as bought.
struct Stock {
  Length is;
  SharedText written; ///< as the maker wrote it: "2.5 m"

  friend bool operator==(const Stock &a, const Stock &b) { return a.is == b.is; }
};

struct Fabric {
  SharedText name;
  std::optional<Weight> weight;
  std::optional<Length> width; ///< selvedge to selvedge
  std::optional<Length> thickness;
  std::optional<Length> bending_length;
  bool shrinks = false; ///< steam shrinks it, as it does wool
  std::optional<Swatch> swatch;
  std::optional<Length> selvedge;            ///< lost at each side of the width; left out: nothing
  std::optional<Shrinkage> shrinkage;        ///< left out: none
  std::optional<Length> sold_by;             ///< the step it is sold in; left out: by the job's unit
  std::optional<Stock> stock = std::nullopt; ///< what pieces must come out of; left out: as much as it takes
};

/// Stitches counted on the cloth's own threads.
struct CountedThreads {
  double taken_up = 0;
  double passed = 0;
  double count_per_mm = 0;
};

struct Gathering {
  Length stitch{4.0}; ///< hole to hole
  bool stitch_given = false;
  std::optional<CountedThreads> threads; ///< where the stitch was given so
  bool on_face = false;                  ///< the stitch was given as running stitches counted on the face
  std::optional<int> rows;               ///< left out: 2, or 3 where any segment is gauged
  Length tail{100.0};
  Length longest{1000.0}; ///< run on one thread
};

/// The maker's own limits for a segment, over those of the cloth.
struct OwnLimits {
  std::optional<double> least;
  std::optional<double> ideal;
  std::optional<double> most;
};

/// Fullness limits of a segment: least to most read well, ideal is aimed at, packed is the closest packing.
///   1. Limits of any cloth are finite and in order.
///   2. For ease least is 1 and ideal halfway to most, and for flat all are 1.
struct Limits {
  double least = 1;
  double ideal = 1;
  double most = 1;
  double packed = 1;
};

/// One piece of gathering thread, the same in each row.
struct Thread {
  int from = 0; ///< mark
  int to = 0;   ///< mark; 0 at the end of a ring
  double cut = 0;
  int stitches = 0;
};

/// How a join's gathering is run.
///   3. All thread together is what each thread is cut to, in every row, and a row has the stitches of its threads.
struct GatheringPlan {
  double stitch = 0;
  int rows = 2;
  std::vector<double> at;        ///< the rows' distances from the cut edge
  std::vector<double> from_seam; ///< from the stitching line, below 0 inside the garment; empty without an allowance
  int stitches = 0;              ///< over one row
  double thread = 0;             ///< all threads together, tails included
  std::vector<Thread> threads;
};

} // namespace gatherwright
