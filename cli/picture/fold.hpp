// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <vector>

/// A long cloth folded over columns and pages, so that what lies on it can be read.
namespace gatherwright::paper {

inline constexpr double between_columns = 5;

/// Of the cloth's length, from the cut end, in its own millimetres.
struct Stretch {
  double from = 0;
  double to = 0;
};

struct Folded {
  double scale = 1;                        ///< page to cloth
  std::vector<std::vector<Stretch>> pages; ///< the stretches that stand side by side on each
};

struct FoldRoom {
  double width = 0;  ///< of a page
  double height = 0; ///< of a column, all of it for the cloth
  double beside = 0; ///< taken in every column beside the cloth
};

/// Where a column may end.
struct Break {
  double at = 0;
  std::size_t divides = 0; ///< so many pieces, of which both columns show a part
};

/// As large as it can be on one page, in as many columns as that takes; where the cloth would be drawn so narrow that
/// pieces can no longer be read, on more pages, and smaller again where those would be more than anyone turns over. A
/// column ends at a break that divides few pieces and leaves little of it empty. `breaks` rise; `width` and `length`,
/// of the cloth, are above 0.
Folded folded(double width, double length, const std::vector<Break> &breaks, const FoldRoom &room);

} // namespace gatherwright::paper
