// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "gatherwright/quantity.hpp"

namespace gatherwright::cloth {

/// The least and greatest weight of the table, grams per square metre; beyond them its values stay as at its ends.
inline constexpr Weight lightest{40.0};
inline constexpr Weight heaviest{400.0};

/// Limits by weight alone: of fullness, and the most of ease.
struct ByWeight {
  double least = 1;
  double ideal = 1;
  double most = 1;
  double ease_most = 1;
};

/// The table over weights, joined by Steffen's monotone cubic (Astron. Astrophys. 239, 443, 1990; end slopes the
/// secant) in the logarithm of the weight. Monotone between rows, and the row itself at the weight of a row. The
/// figures are common practice, no source (about 1.5 to 1 for heavy cloth, 2 for middling, 3 to 4 for sheer); tying
/// them to weights is our model.
ByWeight by_weight(Weight weight);

} // namespace gatherwright::cloth
