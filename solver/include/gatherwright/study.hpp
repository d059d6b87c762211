// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/by_weight.hpp"
#include "gatherwright/cloth.hpp"

#include <array>
#include <optional>
#include <span>
#include <vector>

/// What a study of gathered test strips would change in the table over weights.
///
/// The table is the prior: it is taken to be right to within `table_spread`, a cloth to lie off it by `cloth_spread`,
/// both as standard deviations of the logarithm of the extra (fullness - 1). Between two rows the curve moves in
/// proportion to what they do, on the scale of logarithms of the weight. The figures of a column are then those for
/// which the sum of the squares of what the cloths lie off the curve, each over `cloth_spread`, and of what the figures
/// have moved, each over `table_spread`, is least. So one cloth of a row's own weight moves it half the way.
namespace gatherwright::cloth {

inline constexpr double table_spread = 0.25; ///< our model
inline constexpr double cloth_spread = 0.25; ///< our model

/// The stitch of the strips, hole to hole.
inline constexpr Length study_stitch{4.0};

/// The least extra of a figure: nearer to plain, a ruler does not tell it from no gathers at all.
inline constexpr double least_studied_extra = 0.02;

/// One cloth of a study. Fullness is the strip as cut over the strip as gathered, each at least 1 +
/// `least_studied_extra`; one figure a person who judged it, any number of them.
struct StudiedCloth {
  Fabric fabric; ///< the weight is given; thickness and bending length where they were measured
  std::vector<double> least;
  std::vector<double> ideal;
  std::vector<double> most;
  std::optional<double> tight; ///< drawn up as far as it goes
};

/// A mean of the logarithm and its standard deviation, as factors: exp of either.
struct Factor {
  double mean = 1;
  double spread = 1; ///< 1 where there is only one
  int of = 0;        ///< so many
};

/// A figure of the table as it is and as the study would have it.
struct FittedFigure {
  double now = 1;
  double fitted = 1;
  double spread = 0; ///< one standard deviation of `fitted`
};

struct FittedColumn {
  std::array<FittedFigure, weight_rows> rows;
  std::array<int, weight_rows> near{};  ///< of those with figures, nearest to each row by the ratio of weights
  int cloths = 0;                       ///< with figures for this column
  std::optional<double> between_cloths; ///< how far they lie off the fitted curve, as a factor on the extra
  std::optional<double> between_people; ///< how far people differ on one cloth, likewise
};

struct StudyFit {
  FittedColumn least;
  FittedColumn ideal;
  FittedColumn most;
  std::array<int, weight_rows> near{}; ///< of all cloths, likewise
  std::optional<Factor> density;       ///< grams per square metre to a millimetre of thickness
  std::optional<Factor> packing;       ///< drawn up tight, over `packed` of the same cloth
};

/// Fits the table to a study. Work grows as the number of figures.
///   1. No other figures of a column come to a lesser sum of squares.
///   2. One cloth at the weight of a row moves that row half the way, and no other.
StudyFit fit(std::span<const StudiedCloth> cloths);

} // namespace gatherwright::cloth
