// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

/// Rectangles on a strip under edge-to-edge cuts: every cut runs straight through the part that it divides (guillotine
/// cuts, in any number of steps). The strip has a width and no end; the shortest length that takes all is wanted.
/// Lengths are millimetres.
namespace gatherwright::layout {

/// So many equal rectangles. What may turn may lie turned by a quarter, each copy by itself.
struct Rectangle {
  double across = 0; ///< above 0; no more than the strip's width, unless it may turn and then fits
  double along = 0;  ///< above 0
  int count = 1;     ///< 1 or more
  bool may_turn = false;
};

struct Problem {
  double width = 0;
  std::vector<Rectangle> rectangles;
};

/// Copies counted.
inline constexpr int most_rectangles = 10'000;
/// Of any size, and of the strip's width.
inline constexpr double least_size = 1e-6;
inline constexpr double greatest_size = 1e12;
/// A side that is less than this share of the strip's width, or of all lengths together, is lost in the rounding of
/// sums.
inline constexpr double least_share = 1e-12;
/// A sum of sizes that passes the strip's width (or the length asked for) by no more than this share of it is rounding,
/// not a misfit. Everything that is said of a layout is true within it.
inline constexpr double rounding = 1e-9;

/// Why a problem has no layout.
struct Misfit {
  enum class Why {
    width,    ///< the strip's width is no number from least_size to greatest_size
    size,     ///< a rectangle's is not
    count,    ///< below 1
    too_many, ///< rectangles, copies counted
    wider,    ///< than the strip, either way that it may lie
    lost,     ///< too small beside the strip's width or all lengths together
  };
  Why why = Why::width;
  std::optional<std::size_t> rectangle; ///< of the rectangle's, its index
};

/// The first reason why the problem has no layout, if there is one.
std::optional<Misfit> misfit(const Problem &problem);

} // namespace gatherwright::layout
