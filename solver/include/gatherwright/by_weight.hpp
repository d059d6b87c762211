// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/quantity.hpp"

#include <array>
#include <cstddef>

namespace gatherwright::cloth {

inline constexpr std::size_t weight_rows = 7;
using WeightColumn = std::array<double, weight_rows>;

/// The weights of the table's rows, grams per square metre, and its columns: limits of fullness, and the most of ease.
/// The figures are common practice, no source (about 1.5 to 1 for heavy cloth, 2 for middling, 3 to 4 for sheer); tying
/// them to weights is our model. What is published of cloths by name they have to meet: `tests/data/published.csv`.
inline constexpr WeightColumn row_grams{40, 80, 120, 165, 220, 300, 400};
inline constexpr WeightColumn row_least{1.35, 1.28, 1.22, 1.18, 1.15, 1.12, 1.10};
inline constexpr WeightColumn row_ideal{3.00, 2.60, 2.30, 2.10, 1.80, 1.60, 1.50};
inline constexpr WeightColumn row_most{4.00, 3.50, 3.00, 2.70, 2.25, 2.00, 1.90};
inline constexpr WeightColumn row_ease_most{1.02, 1.05, 1.07, 1.08, 1.08, 1.09, 1.10};

/// The least and greatest weight of the table; beyond them its values stay as at its ends.
inline constexpr Weight lightest{row_grams.front()};
inline constexpr Weight heaviest{row_grams.back()};

/// A column of the table joined by Steffen's monotone cubic (Astron. Astrophys. 239, 443, 1990; end slopes the secant)
/// in the logarithm of the weight. Monotone between rows, and the row itself at the weight of a row.
class CurveOverWeights {
public:
  explicit CurveOverWeights(const WeightColumn &values);
  double at(Weight weight) const;

private:
  WeightColumn value_;
  WeightColumn slope_{};
};

/// Limits by weight alone: of fullness, and the most of ease.
struct ByWeight {
  double least = 1;
  double ideal = 1;
  double most = 1;
  double ease_most = 1;
};

/// What the table gives for a weight.
///   1. The table over weights is met exactly at its rows.
///   2. Beyond the table the limits stay as at its ends.
ByWeight by_weight(Weight weight);

} // namespace gatherwright::cloth
