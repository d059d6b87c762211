// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "solver/layout/problem.hpp"

#include <cstdint>
#include <vector>

namespace gatherwright::bench {

/// stb_rect_pack's skyline, for sizes in whole numbers.
class Skyline {
public:
  /// Whether it was there to be built with.
  static bool present();

  explicit Skyline(const layout::Problem &problem);

  /// The length that it packs the rectangles into in one order: the tallest first, or an order by chance, by seed.
  double pack(std::uint32_t seed);
  /// Looks at the last packing: nothing may lie over another or beyond the strip.
  void hold_right() const;

private:
  struct Piece {
    int across = 0;
    int along = 0;
    int at_across = 0; ///< where it was packed last
    int at_along = 0;
  };
  int width_ = 0;
  std::vector<Piece> pieces_; ///< the tallest first
  std::vector<Piece> packed_;
};

} // namespace gatherwright::bench
