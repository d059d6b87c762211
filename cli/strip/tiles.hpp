// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "cli/drawing/clip.hpp"
#include "cli/strip/drawn_edge.hpp"

#include <vector>

/// A picture cut into tiles that fit a page.
namespace gatherwright::paper {

struct Tile {
  int row = 1; ///< from 1
  int column = 1;
  std::vector<Item> items; ///< from 0, 0
};

struct Tiling {
  int rows = 1;
  int columns = 1;
  double width = 0; ///< of each tile
  double height = 0;
  std::vector<Tile> tiles; ///< row by row; those on which nothing is drawn are left out
};

/// Tiles no larger than `room_width` by `room_height`, each sharing `overlap` (parts.hpp) with the next, with lines
/// across the middle of what they share that carry the same letter on both.
Tiling tiled(const EdgePicture &picture, double room_width, double room_height);

} // namespace gatherwright::paper
